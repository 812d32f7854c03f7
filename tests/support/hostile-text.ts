/** What a pattern was written against; everybody's reader gets all of them. */
export type HostileTo = 'quantities' | 'mdx' | 'yaml' | 'captions' | 'edit lists' | 'tables' | 'json' | 'xml';

/** Text meant to make a reader take long, of about so many bytes, in one line where a line can hold it. */
export interface HostilePattern {
  readonly name: string;
  readonly aimedAt: HostileTo;
  readonly text: (bytes: number) => string;
}

/** `unit` again and again, up to so many bytes. */
function again(unit: string, bytes: number): string {
  return unit.repeat(Math.ceil(bytes / Buffer.byteLength(unit))).slice(0, bytes);
}

/** `open` again and again, then `close` as often: nested, half the bytes deep. */
function nested(open: string, close: string, bytes: number, inside = 'x'): string {
  const depth = Math.floor(bytes / (open.length + close.length));
  return open.repeat(depth) + inside + close.repeat(depth);
}

const HEAD = '---\ntitle: T\n---\n## One\n\n';
const step = (words: string) => `${HEAD}### Step\n\n${words}\n`;
const vtt = (words: string) => `WEBVTT\n\n00:00:01.000 --> 00:00:02.000\n${words}\n`;
/** Items numbered from 0, so that no two lines are the same. */
const numbered = (item: (n: number) => string, bytes: number) => {
  const items: string[] = [];
  for (let n = 0, size = 0; size < bytes; n++) {
    const next = item(n);
    items.push(next);
    size += next.length;
  }
  return items.join('');
};

const of = (aimedAt: HostileTo, patterns: Readonly<Record<string, (bytes: number) => string>>): HostilePattern[] =>
  Object.entries(patterns).map(([name, text]) => ({ name, aimedAt, text }));

/**
 * A fixed list of texts that readers and finders have to get through in a time that grows as the text does: runs,
 * nests, near misses of a grammar. Add to it; take nothing out.
 */
export const HOSTILE_TEXT: readonly HostilePattern[] = [
  ...of('quantities', {
    'one run of digits': (n) => again('7', n),
    'digits in groups': (n) => again('123 ', n),
    'digits in groups with commas': (n) => again('123,', n),
    'digits and points': (n) => again('1.', n),
    'digits and slashes': (n) => again('1/', n),
    'digits and hyphens': (n) => again('1-', n),
    'digits and signs of tolerance': (n) => again('1±', n),
    'numbers without a unit': (n) => again('5 to ', n),
    'number words without an end': (n) => again('twenty ', n),
    'hundreds and hundreds': (n) => again('hundred and ', n),
    'point after point': (n) => again('point five ', n),
    'halves of halves': (n) => again('and a half ', n),
    'values in one sentence without a stop': (n) => again('then 98 newton metres and ', n),
    'values in figures without a stop': (n) => again('12 mm ', n),
    'values with limits before them': (n) => again('no more than 12 mm ', n),
    'limits without a value': (n) => again('no more than ', n),
    'tolerances without a value': (n) => again('plus or minus ', n),
    'values taken back': (n) => again('12 mm, no, sorry, ', n),
    'apologies without a value': (n) => `12 mm ${again('no, sorry, wait, ', n)}`,
    'fillers before a unit': (n) => `12 ${again('more ', n)}mm`,
    'ranges from high to low': (n) => again('from 50 down to ', n),
    'hyphens between words': (n) => again('ten-', n),
    'one word': (n) => again('x', n),
    'a word in parentheses never shut': (n) => again('(x ', n),
    'blanks between a number and its unit': (n) => `12${again(' ', n)}mm`,
    'full stops': (n) => again('. ', n),
    'marks after a number': (n) => `12${again(')', n)}`,
    'quotation marks': (n) => again('"', n),
    'apostrophes in words': (n) => again("it's", n),
    'units without numbers': (n) => again('newton metres ', n),
    'degrees of nothing': (n) => again('° ', n),
    'years on years': (n) => again('2016 to 2019 ', n),
    'ratios of ratios': (n) => again('50:1:', n),
    'thread sizes without an end': (n) => again('M8x1.25x', n),
    'hours and classes': (n) => again('we have been at it for two hours ', n),
    'dots of leaders': (n) => `Torque ${again('.', n)} 98`,
    'letters of many scripts': (n) => again('é̂ß漢', Math.floor(n / 2)),
    'invisible blanks': (n) => `12${again('\u200b\u00a0\u202f', Math.floor(n / 3))}mm`,
  }),
  ...of('mdx', {
    'emphasis opened, never shut': (n) => step(again('*a ', n)),
    'emphasis opened and shut crosswise': (n) => step(again('*a **b_ ', n)),
    'nested emphasis': (n) => step(nested('*a ', ' b*', n)),
    'nested quotes': (n) => step(`${again('> ', n)}x`),
    'nested lists': (n) => step(`${again('- ', n)}x`),
    'brackets opened, never shut': (n) => step(again('[', n)),
    'links inside links': (n) => step(nested('[', '](x)', n)),
    'pictures inside pictures': (n) => step(nested('![', '](x)', n)),
    'backticks of growing length': (n) => step(numbered((i) => `${'`'.repeat((i % 900) + 1)} x `, n)),
    'elements opened, never shut': (n) => step(again('<Warning>', n)),
    'nested elements': (n) => step(nested('<Warning>', '</Warning>', n)),
    'attributes without an end': (n) => step(`<Cue ${again('at="0:01" ', n)}/>`),
    'angle brackets': (n) => step(again('< ', n)),
    'braces opened, never shut': (n) => step(again('{', n)),
    'references to nothing': (n) => step(numbered((i) => `[a${i}][b${i}] `, n)),
    'headings on one page': (n) => HEAD + numbered((i) => `### Step ${i}\n\n`, n),
    'one heading of many words': (n) => `${HEAD}### ${again('turn it 12 mm ', n)}\n`,
    'a table of one row': (n) => step(`${again('|a', n / 2)}\n${again('|-', n / 2)}`),
    escapes: (n) => step(again('\\*', n)),
    entities: (n) => step(again('&amp;&#38;&nope ', n)),
    'nested emphasis in many paragraphs': (n) => step(again(`${nested('*a ', ' b*', 1_150)}\n\n`, n)),
    'brackets in many paragraphs': (n) => step(again(`${nested('![', '](x)', 1_150)}\n\n`, n)),
    'emphasis over many lines': (n) => step(again('*a **b_\n', n)),
    'quotes in quotes on every line': (n) => step(again(`${'> '.repeat(90)}x\n`, n)),
    'lists indented ever deeper': (n) =>
      step(numbered((i) => `${'\t'.repeat(Math.floor((i % 50) / 2))}${i % 2 ? '  ' : ''}- x\n`, n)),
    'lists as deep as they may be': (n) => step(`${'- '.repeat(45)}x\n${again(`${'\t'.repeat(22)}  y\n`, n)}`),
    'elements in elements over many paragraphs': (n) => step(again('<Warning>\n\n', n)),
    'elements in elements, shut again': (n) => step(nested('<Warning>\n\n', '</Warning>\n\n', n)),
    'attributes without a value': (n) => step(`<Cue ${again('a ', n)}/>`),
    'attributes on many lines': (n) => step(again(`<Cue ${'a b '.repeat(95)}/>\n\n`, n)),
    'an element of one long name': (n) => step(`<${again('a', n)} />`),
    'elements of long names': (n) => step(again(`<${'Warnimg'.repeat(400)} />\n\n`, n)),
    'one title again and again': (n) => HEAD + again('### x\n', n),
    'words without an end': (n) => step(again('word ', n)),
    'lines of a word': (n) => step(again('word\n', n)),
    'tables on one page': (n) => step(again('|a|b|\n|-|-|\n|c|d|\n\n', n)),
    'notes that name each other': (n) => step(numbered((i) => `[^${i}]: x [^${i + 1}]\n\n`, n)),
    'addresses in running text': (n) => step(again('http://a.b/(((( a@b.c ', n)),
    'fences never shut': (n) => step(numbered((i) => `${'`'.repeat((i % 90) + 3)}\n`, n)),
  }),
  ...of('yaml', {
    'nested flow lists': (n) => `a: ${nested('[', ']', n)}\n`,
    'flow lists never shut': (n) => `a: ${again('[', n)}\n`,
    'nested flow maps': (n) => `a: ${nested('{a: ', '}', n)}\n`,
    'nested dashes': (n) => `a:\n  ${again('- ', n)}x\n`,
    'keys in one map': (n) => numbered((i) => `k${i}: 1\n`, n),
    'one key again and again': (n) => again('key: 1\n', n),
    'a quoted text never shut': (n) => `a: "${again('x ', n)}`,
    'escapes in quotes': (n) => `a: "${again('\\\\', n)}"\n`,
    'aliases of aliases': (n) =>
      `a0: &a0 [x, x]\n${numbered((i) => `a${i + 1}: &a${i + 1} [*a${i}, *a${i}]\n`, Math.min(n, 4000))}`,
    'aliases without an anchor': (n) => again('- *x\n', n),
    'wrong entries of a list': (n) => `edit:\n${again('  - {in: x, out: y}\n', n)}`,
    'entries without what they need': (n) => `specs:\n${again('  - {id: x}\n', n)}`,
    'keys that stand twice': (n) => numbered((i) => `k${i >> 1}: 1\n`, n),
    comments: (n) => `${again('# x\n', n)}a: 1\n`,
    colons: (n) => `a: ${again('b: ', n)}\n`,
    'explicit keys': (n) => again('? ', n),
    tags: (n) => again('!x ', n),
    'a block text of deep indentation': (n) => `a: |\n${' '.repeat(n)}x\n`,
    'times of an edit list': (n) => `edit:\n${again('  - {in: "0:00:01", out: "0:00:02"}\n', n)}`,
  }),
  ...of('captions', {
    'one caption of one line': (n) => vtt(again('torque it to ninety eight newton metres ', n)),
    'one caption of many lines': (n) => vtt(again('ninety\neight\n', n)),
    'captions of one word': (n) =>
      `WEBVTT\n\n${numbered((i) => `00:00:${String(i % 60).padStart(2, '0')}.000 --> 00:01:00.000\nten\n\n`, n)}`,
    'timings without words': (n) => `WEBVTT\n\n${again('00:00:01.000 --> 00:00:02.000\n\n', n)}`,
    arrows: (n) => `WEBVTT\n\n${again('--> ', n)}`,
    'lines that only look like timings': (n) => `WEBVTT\n\n${again('00:00:01.000 --> \n', n)}`,
    'tags opened, never shut': (n) => vtt(again('<v ', n)),
    'nested tags': (n) => vtt(nested('<b>', '</b>', n)),
    'one tag without an end': (n) => vtt(`<v ${again('x', n)}`),
    'digits of an hour': (n) => `WEBVTT\n\n${again('9', n)}:00:01.000 --> 00:00:02.000\nx\n`,
    'settings of one caption': (n) => `WEBVTT\n\n00:00:01.000 --> 00:00:02.000 ${again('align:start ', n)}\nx\n`,
    notes: (n) => `WEBVTT\n\n${again('NOTE x\n\n', n)}`,
    'empty lines': (n) => `WEBVTT\n${again('\n', n)}`,
    'returns without line feeds': (n) => `WEBVTT\r\r00:00:01.000 --> 00:00:02.000\r${again('x\r', n)}`,
    'words with a time each': (n) => vtt(again('<00:00:01.500>ten ', n)),
  }),
  ...of('edit lists', {
    'events of one line each': (n) =>
      `TITLE: T\nFCM: NON-DROP FRAME\n${numbered((i) => `${String(i % 1000).padStart(3, '0')}  A  V  C  00:00:01:00 00:00:02:00 00:00:01:00 00:00:02:00\n`, n)}`,
    'blanks between the fields of an event': (n) => `TITLE: T\n001${again(' ', n)}A V C 00:00:01:00 00:00:02:00\n`,
    'an event of one digit run': (n) => `TITLE: T\n${again('0', n)}  A  V  C\n`,
    'remarks of one event': (n) =>
      `TITLE: T\n001  A  V  C  00:00:01:00 00:00:02:00 00:00:01:00 00:00:02:00\n${again('* LOC: 00:00:01:00 RED x\n', n)}`,
    'one remark without an end': (n) => `TITLE: T\n* FROM CLIP NAME: ${again('x ', n)}\n`,
    'digits and colons': (n) => `TITLE: T\n${again('00:', n)}\n`,
    'a title without an end': (n) => `TITLE: ${again('x', n)}`,
    'a list of chapters': (n) =>
      numbered((i) => `${Math.floor(i / 60)}:${String(i % 60).padStart(2, '0')} Chapter\n`, n),
    'a chapter of many clocks': (n) => again('0:00 ', n),
    'chapters of ffmpeg': (n) => `;FFMETADATA1\n${again('[CHAPTER]\nTIMEBASE=1/1\nSTART=0\nEND=1\ntitle=x\n', n)}`,
    'escapes in metadata': (n) => `;FFMETADATA1\ntitle=${again('\\\\', n)}\n`,
  }),
  ...of('tables', {
    'one row of empty cells': (n) => again(',', n),
    'a quoted cell never shut': (n) => `id,title\n"${again('x,', n)}`,
    'quotes in quotes': (n) => `id,title\n"${again('""', n)}"\n`,
    'rows of one cell': (n) => `id\n${numbered((i) => `r${i}\n`, n)}`,
    'the same row again and again': (n) => `id,title,kind,nominal,unit\n${again('axle-nut,Nut,torque,98,N·m\n', n)}`,
    'returns and line feeds crosswise': (n) => again('a\n\rb\r', n),
  }),
  ...of('json', {
    'nested lists of JSON': (n) => nested('[', ']', n, ''),
    'nested objects of JSON': (n) => nested('{"a":', '}', n, '1'),
    'lists of JSON never shut': (n) => again('[', n),
    'a text of JSON never shut': (n) => `["${again('x', n)}`,
    'escapes of JSON': (n) => `["${again('\\u0041', n - (n % 6))}"]`,
    'keys of JSON': (n) => `{${numbered((i) => `"k${i}":1,`, n)}"z":1}`,
    'words with times': (n) =>
      `{"words":[${numbered((i) => `{"word":"ten","start":${i},"end":${i + 1}},`, n)}{"word":"x","start":1,"end":2}]}`,
    'clips of OpenTimelineIO': (n) =>
      `{"OTIO_SCHEMA":"Timeline.1","tracks":{"OTIO_SCHEMA":"Stack.1","children":[${again('{"OTIO_SCHEMA":"Track.1","children":[]},', n)}{}]}}`,
    'digits of a number of JSON': (n) => `[${again('9', n)}]`,
  }),
  ...of('xml', {
    'nested elements of XML': (n) => `<Chapters>${nested('<a>', '</a>', n)}</Chapters>`,
    'elements of XML never shut': (n) => `<Chapters>${again('<a>', n)}`,
    'attributes of XML without an end': (n) => `<Chapters ${again('a="b" ', n)}`,
    'entities of XML': (n) => `<Chapters>${again('&amp;&x;', n)}</Chapters>`,
    'atoms of chapters': (n) =>
      `<Chapters><EditionEntry>${again('<ChapterAtom><ChapterTimeStart>00:00:01.0</ChapterTimeStart></ChapterAtom>', n)}</EditionEntry></Chapters>`,
    'remarks of XML never shut': (n) => `<Chapters>${again('<!-- ', n)}`,
  }),
];
