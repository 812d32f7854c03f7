import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findCommand, openSession, type Session } from '../../../src/core/edit/index.ts';
import { FORMATS, findImportFormat, IMPORT_FORMATS, planImport } from '../../../src/core/interchange/index.ts';
import type { FileFacts } from '../../../src/core/model/index.ts';
import { lessonTimes } from '../../../src/core/programme/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { FRAME_RATES, printClockTime, TICKS_PER_SECOND, ticks } from '../../../src/core/time/index.ts';
import { at } from '../../support/edit.ts';
import { done } from '../../support/shop.ts';

const RECORDING = 'recordings/pads.yaml';
const LESSON = 'lessons/pads.mdx';
const LENGTH = 600;

/** A recording of ten minutes with its words, at second and text; invented. */
interface Made {
  readonly words: readonly (readonly [start: number, text: string])[];
  readonly kept?: string;
  readonly rate?: '25' | '29.97' | '29.97df';
  readonly lesson?: string | null;
  /** Line by line below the head of the recording's file. */
  readonly more?: string;
}

const TEXT_OF_LESSON = `---
title: Front brake pads   # as on the poster
recording: pads
machine: tarn-420
---
## Get ready
<Cue at="0:00:02" />

### Both wheels straight
<Cue at="0:00:20" />
`;

/** A word lasts half a second: what follows more than two seconds later has a rest before it. */
const LASTS = 0.5;

function vtt(words: Made['words']): string {
  const clock = (seconds: number) => `0${printClockTime(at(seconds))}`.replace(/^(\d\d:\d\d:\d\d)$/, '$1.000');
  const full = (seconds: number) =>
    clock(seconds).replace(/\.(\d+)$/, (_, digits: string) => `.${digits.padEnd(3, '0')}`);
  return `WEBVTT\n\n${words.map(([start, text]) => `${full(start)} --> ${full(start + LASTS)}\n${text}\n`).join('\n')}`;
}

function shopOf({ words, kept, rate = '25', lesson = TEXT_OF_LESSON, more = '' }: Made) {
  const edit = kept
    ? `edit:   # from the clap\n${kept
        .split(' ')
        .map((one) => `  - {in: "${one.split('-')[0]}", out: "${one.split('-')[1]}"}`)
        .join('\n')}\n`
    : '';
  const texts = new Map([
    [
      RECORDING,
      `# The long take\ntitle: Brake pads, uncut\nfiles:\n  - file: media/pads.mp4   # one card\nrate: "${rate}"\n${more}${edit}people: []\ncaptions: media/pads.vtt\n`,
    ],
    ['specs/tarn-420.yaml', 'machine: {title: Tarn 420, years: 2019-2025, invented: true}\nspecs: []\n'],
    ...(lesson === null ? [] : [[LESSON, lesson] as const]),
  ]);
  const { numerator, denominator } = FRAME_RATES[rate];
  const framesPerSecond = numerator / denominator;
  const whole = Math.floor(LENGTH * framesPerSecond) * FRAME_RATES[rate].ticksPerFrame;
  const facts = (file: string): FileFacts =>
    file.endsWith('.vtt')
      ? { state: 'text', text: vtt(words) }
      : { state: 'media', media: { duration: whole, framesPerSecond } };
  return { texts, facts };
}

/** Everything that reads and writes, as the commands do it. */
function desk(made: Made) {
  const { texts, facts } = shopOf(made);
  const shopNow = () => readShop(texts, facts).shop;
  const recordingNow = () => {
    const [recording] = shopNow().recordings;
    if (!recording) throw new Error('no recording');
    return recording;
  };
  const paper = () => {
    const shop = shopNow();
    const recording = recordingNow();
    const format = FORMATS.find(({ id }) => id === 'paper-edit');
    if (format?.of !== 'recording') throw new Error('no paper edit');
    return done(
      format.write(
        recording,
        shop.lessons.map((lesson) => lessonTimes(lesson, recording)),
        shop,
      ),
    ).text;
  };
  const take = (text: string) => {
    const shop = shopNow();
    const recording = recordingNow();
    const format = done(findImportFormat('back.txt', text));
    const read = done(format.read('back.txt', text, recording, { clock: 'recording' }, shop.lessons));
    const plan = done(planImport(read, recording, shop, texts));
    for (const one of plan.texts) texts.set(one.file, one.text);
    return { notes: read.notes, words: plan.words, files: plan.texts.map(({ file }) => file) };
  };
  const room = () => openSession({ recordingFile: RECORDING, lessonFile: LESSON, facts }, texts);
  const refused = (text: string, id = 'paper-edit') => {
    const read = IMPORT_FORMATS.find((one) => one.id === id)?.read('a.txt', text, recordingNow(), {
      clock: 'recording',
    });
    if (!read || read.ok) throw new Error('it was read');
    return read.problem;
  };
  return { texts, paper, take, room, refused };
}

const keptOf = (session: Session) =>
  session.view.kept.map(({ start, end }) => `${start / TICKS_PER_SECOND}-${end / TICKS_PER_SECOND}`).join(' ');

/** What the cutting room makes of a range: in, out, and a key. */
function byRoom(session: Session, start: number, end: number, key: string): Session {
  const press = (before: Session, id: string) => {
    const outcome = findCommand(id)?.run?.(before);
    return outcome && 'session' in outcome ? outcome.session : before;
  };
  const from = press({ ...session, playhead: ticks(start) }, 'in');
  return press(press({ ...from, playhead: ticks(end) }, 'out'), key);
}

const SAID: Made['words'] = [
  ...'Now take the caliper off and'.split(' ').map((text, i): [number, string] => [4 + i / 2, text]),
  ...'push the pistons back gently.'.split(' ').map((text, i): [number, string] => [20 + i / 2, text]),
  ...'Now tighten the bolts.'.split(' ').map((text, i): [number, string] => [40 + i / 2, text]),
];

describe('on paper', () => {
  test('each line has its time, what is cut its signs, chapters and steps their place', () => {
    const { paper } = desk({ words: SAID, kept: '0:00:00-0:00:20.5 0:00:22-0:10:00' });
    const [, body = '', printed = ''] = paper().split(/^=+\n/m);
    expect(body.trim().split('\n')).toEqual([
      '00:00:00:00  (no words, 4 s)',
      '',
      '00:00:02:00  chapter: Get ready',
      '',
      '00:00:04:00  Now take the caliper off and',
      '00:00:07:00  (no words, 13 s)',
      '',
      '00:00:20:00  step: Both wheels straight',
      '',
      '00:00:20:00  push [-the pistons back-] gently.',
      '00:00:22:12  (no words, 18 s)',
      '00:00:40:00  Now tighten the bolts.',
      '00:00:42:00  (no words, 9 min 18 s)',
    ]);
    expect(printed.trim().split('\n').slice(2)).toEqual(['cut 0:00:20.48-0:00:22']);
  });

  test('words in which something reads as a sign, a time or a heading are written so that it does not', () => {
    const words = ['[-clap-]', '1:02:03.5', '[cut]', '—'].map((text, i): [number, string] => [i, text]);
    const { paper, take } = desk({ words: [...words, [60, 'Step:'], [60.5, 'go']], lesson: null });
    const text = paper();
    expect(text).toContain('(-clap-) 1.02.03.5 (cut) —\n');
    expect(text).toContain('  Step go\n');
    expect(take(text)).toMatchObject({ files: [], notes: [] });
  });

  test('a recording without captions has no words to print', () => {
    expect(() => desk({ words: [] }).paper()).toThrow('pads has no captions');
  });
});

/** Words of the paper in order, with the lines they stand on; headings and the rest of the paper stay. */
function remark(text: string, cut: readonly boolean[], style: (i: number) => number): string {
  const [head = '', body = '', printed = ''] = text.split(/^=+\n/m);
  let i = 0;
  const lines = body.split('\n').map((line) => {
    if (line === '' || /^\S+ {2}(?:step|chapter):/.test(line)) return line;
    const [time = '', ...rest] = line.split('  ');
    const words =
      rest
        .join(' ')
        .replaceAll(/\[-|-\]/g, '')
        .match(/\(no words,[^)]*\)|\S+/g) ?? [];
    const first = i;
    const states = words.map(() => cut[i++] ?? false);
    // Whole lines may be marked at their head, with what is kept in signs of its own.
    if (style(first) === 0 && states.some((one) => one))
      return `[cut] ${time}  ${words.map((word, n) => (states[n] ? word : `[+${word}+]`)).join(' ')}`;
    const said = words.map((word, n) => {
      const opens = states[n] && (style(first) === 1 || !states[n - 1]);
      const closes = states[n] && (style(first) === 1 || !states[n + 1]);
      return `${opens ? '[-' : ''}${word}${closes ? '-]' : ''}`;
    });
    return `${time}  ${said.join(' ')}`;
  });
  const rule = `${'='.repeat(72)}\n`;
  return [head, lines.join('\n'), printed].join(rule);
}

// Words on whole frames of 25 a second, apart by half a second, or by rests.
const spoken = fc.array(
  fc.tuple(fc.constantFrom(13, 25, 49, 100, 300), fc.constantFrom('take', 'the', 'nut', 'off.', 'Now', 'turn')),
  {
    minLength: 2,
    maxLength: 60,
  },
);

describe('out, marked and in again', () => {
  test('runs of words come to what the cutting room makes of them', () => {
    fc.assert(
      fc.property(
        spoken,
        fc.constantFrom('25' as const, '29.97' as const, '29.97df' as const),
        fc.array(fc.boolean(), { minLength: 140, maxLength: 140 }),
        fc.array(fc.nat(2), { minLength: 140, maxLength: 140 }),
        fc.option(fc.tuple(fc.integer({ min: 2, max: 20 }), fc.integer({ min: 3, max: 90 }))),
        (row, rate, wanted, styles, hole) => {
          let frame = 75;
          const words = row.map(([apart, text]): [number, string] => {
            frame += apart;
            return [frame / 25, text];
          });
          const made = desk({
            ...{ words, rate },
            ...(hole && {
              kept: `0:00:00-0:00:${String(hole[0]).padStart(2, '0')} ${printClockTime(at(hole[0] + hole[1]))}-0:10:00`,
            }),
          });
          // The row of words and rests, by the rule of two seconds, on frames.
          const length = FRAME_RATES[rate].ticksPerFrame;
          const on = (seconds: number) => Math.floor((at(seconds) + TICKS_PER_SECOND / 1000) / length) * length;
          const row2: number[] = [0];
          words.forEach(([start], i) => {
            row2.push(on(start));
            const next = words[i + 1]?.[0] ?? LENGTH;
            if (next - (start + LASTS) >= 2) row2.push(on(start + LASTS));
          });
          const before = made.room();
          const end = before.view.length;
          const edges = [...row2, end];
          const isCut = (i: number) => {
            const middle = Math.floor(((edges[i] ?? 0) + (edges[i + 1] ?? 0)) / 2);
            return !before.view.kept.some((kept) => kept.start <= middle && middle < kept.end);
          };
          const now = row2.map((_, i) => isCut(i));
          const then = row2.map((_, i) => wanted[i] ?? false);
          const paper = made.paper();
          let room = before;
          for (let i = 0; i < row2.length; i++) {
            if (then[i] === now[i]) continue;
            let last = i;
            for (let n = i; then[n] === then[i] && n < row2.length; n++) if (now[n] !== then[n]) last = n;
            room = byRoom(room, edges[i] ?? 0, edges[last + 1] ?? 0, then[i] ? 'cut' : 'keep');
            i = last;
          }
          // A programme has to keep something: the room refuses, and so does the import.
          fc.pre(then.slice(0, row2.length).some((one) => !one));
          const { notes } = made.take(remark(paper, then, (i) => styles[i] ?? 2));
          expect(notes).toEqual([]);
          expect(keptOf(made.room())).toBe(keptOf(room));
        },
      ),
      { numRuns: 60 },
    );
  });

  test('unchanged, nothing is to change, however its lines are broken and whatever ends them', () => {
    const made = desk({ words: SAID, kept: '0:00:00-0:00:20.5 0:00:22-0:10:00' });
    const paper = made.paper();
    const refilled = paper
      .split(/\n\n/)
      .map((paragraph) => paragraph.replaceAll('\n', ' '))
      .join('\r\n\r\n')
      .replaceAll(/ ?(={20,}) ?/g, '\r\n$1\r\n');
    for (const text of [paper, `\uFEFF${paper}`, paper.replaceAll('\n', '\r\n'), refilled])
      expect(made.take(text)).toMatchObject({ notes: [], files: [] });
  });
});

describe('marked by hand', () => {
  const marked = (change: (paper: string) => string, made: Made = { words: SAID }) => {
    const one = desk(made);
    const result = one.take(change(one.paper()));
    return { ...result, kept: keptOf(one.room()), texts: one.texts };
  };
  const within = (from: string, to: string) => (paper: string) => {
    expect(paper).toContain(from);
    return paper.replace(from, to);
  };

  test.each([
    ['a run within a line', within('take the caliper', '[-take the caliper-]'), '0-4.48 6-600'],
    [
      'a run over lines and rests',
      (paper: string) => within('push the', 'push-] the')(within('caliper off', 'caliper [-off')(paper)),
      '0-6 20.48-600',
    ],
    ['a line', within('00:00:40:00', '[cut] 00:00:40:00'), '0-40 42-600'],
    [
      'a line but for a word',
      (paper: string) => within('00:00:40:00', '[cut] 00:00:40:00')(within('tighten', '[+tighten+]')(paper)),
      '0-40 40.48-41 42-600',
    ],
    ['a rest', within('(no words, 9 min 18 s)', '[-(no words, 9 min 18 s)-]'), '0-42'],
    ['corrected words', within('take the caliper', '[-take that brake calliper-]'), '0-4.48 6-600'],
    ['a word left out within a run', within('take the caliper off', '[-take caliper off-]'), '0-4.48 6.48-600'],
  ])('%s', (_what, change, expected) => {
    expect(marked(change).kept).toBe(expected);
  });

  test('only a part handed back: the rest stays as it is, and comments of the file too', () => {
    const kept = '0:00:00-0:00:20.5 0:00:22-0:10:00';
    const {
      kept: after,
      notes,
      texts,
    } = marked(() => '00:00:40:00 Now [-tighten the-] bolts.\n', { words: SAID, kept });
    expect(after).toBe('0-20.52 22-40.48 41.48-600');
    expect(notes).toEqual(['15 words that the file leaves out: as before']);
    expect(texts.get(RECORDING)).toContain('edit:   # from the clap\n  - {in: "0:00:00", out: "0:00:20.5"}\n');
    expect(texts.get(RECORDING)).toContain('- file: media/pads.mp4   # one card\n');
  });

  test('what was cut in the room after it was printed stays cut; what was marked since is done', () => {
    const made = desk({ words: SAID });
    const paper = made.paper();
    made.texts.set(
      RECORDING,
      (made.texts.get(RECORDING) ?? '').replace(
        'people:',
        'edit: [{in: "0:00:00", out: "0:00:20"}, {in: "0:00:23", out: "0:10:00"}]\npeople:',
      ),
    );
    made.take(paper.replace('tighten', '[-tighten-]'));
    expect(keptOf(made.room())).toBe('0-20 23-40.48 41-600');
    // Without its last lines it is taken at its word.
    made.take(paper.split(/^=+\n/m)[1] ?? '');
    expect(keptOf(made.room())).toBe('0-600');
  });

  test('a line whose time is wrong is found by its words; one that is not said is told, and the rest is done', () => {
    const change = (paper: string) =>
      within(
        '00:00:20:00  push the',
        '00:05:00:00  push [-the-]',
      )(within('00:00:40:00  Now', '00:00:39:00  bananas [-are yellow-]\n00:00:40:00  [-Now-]')(paper));
    const { kept, notes } = marked(change);
    expect(kept).toBe('0-20.48 21-40 40.48-600');
    expect(notes).toEqual([expect.stringMatching(/^line \d+: "bananas are yellow" is not said near that time$/)]);
  });

  test('signs that do not agree are told by line, cut nothing, and leave the others alone', () => {
    const lost = marked((paper) => within('caliper', '[-caliper')(within('tighten', '[-tighten-]')(paper)));
    expect([lost.kept, lost.notes]).toEqual([
      '0-40.48 41-600',
      [expect.stringMatching(/^line \d+: "\[-" before "caliper off and/)],
    ]);
    // The half that closes what was cut already would otherwise bring it back.
    const kept = '0:00:00-0:00:20 0:00:22.5-0:10:00';
    const half = marked(within('[-push', 'push'), { words: SAID, kept });
    expect([half.kept, half.files]).toEqual(['0-20 22.48-600', []]);
    expect(half.notes).toEqual([expect.stringContaining('"-]" has no "[-" before it')]);
  });

  test('cut words come back where their signs are taken away', () => {
    const kept = '0:00:00-0:00:20 0:00:22.5-0:10:00';
    expect(
      marked(within('[-push the pistons back gently.-]', 'push the [-pistons back-] gently.'), { words: SAID, kept })
        .kept,
    ).toBe('0-21 22-600');
    expect(
      marked(within('[-push the pistons back gently.-]', '[keep] push the pistons back gently.'), { words: SAID, kept })
        .kept,
    ).toBe('0-600');
  });

  test('a line pasted twice, cut once and kept once, is kept', () => {
    expect(
      marked(
        within(
          '00:00:40:00  Now tighten the bolts.',
          '[cut] 00:00:40:00  Now tighten the bolts.\n00:00:40:00  Now tighten the bolts.',
        ),
      ).files,
    ).toEqual([]);
  });
});

describe('steps on paper', () => {
  const marked = (from: string, to: string, lesson: string | null = TEXT_OF_LESSON) => {
    const one = desk({ words: SAID, lesson });
    const paper = one.paper();
    expect(paper).toContain(from);
    const result = one.take(paper.replace(from, to));
    return { ...result, lesson: one.texts.get(LESSON) ?? '' };
  };

  test('a new step begins with the word that follows, as the cutting room adds it there', () => {
    const { lesson, words } = marked('00:00:40:00', 'step: Tighten the bolts\n00:00:40:00');
    const session = desk({ words: SAID }).room();
    const step = session.view.passages.at(-1);
    const chosen = { ...session, playhead: at(40), content: { ...session.content, chosen: step?.id } };
    const outcome = findCommand('add-step')?.run?.(chosen, 'Tighten the bolts');
    const room = outcome && 'session' in outcome ? outcome.session.content.texts.get(LESSON) : undefined;
    expect(lesson).toBe(room);
    expect(words).toContain('lesson pads: 1 step new, 2 as before');
  });

  test.each([
    [
      'in the middle of a line',
      'Now tighten the bolts.',
      'Now tighten\nSTEP:  Tighten the bolts\nthe bolts.',
      '### Tighten the bolts\n<Cue at="0:00:41" />',
    ],
    ['a chapter', '00:00:40:00', 'chapter: Close up\n00:00:40:00', '## Close up\n<Cue at="0:00:40" />'],
    ['with a time of its own', '00:00:40:00', '00:00:31:00 step: Look\n00:00:40:00', '### Look\n<Cue at="0:00:31" />'],
    [
      'with a time that is not there',
      '00:00:40:00',
      '00:09:31:00 step: Look\n00:00:40:00',
      '### Look\n<Cue at="0:00:40" />',
    ],
  ])('%s', (_what, from, to, expected) => {
    expect(marked(from, to).lesson).toContain(expected);
  });

  test('one moved to other words takes its cue along', () => {
    const heading = '00:00:20:00  step: Both wheels straight\n\n';
    const one = desk({ words: SAID });
    one.take(one.paper().replace(heading, '').replace('00:00:40:00', `${heading}00:00:40:00`));
    expect(one.texts.get(LESSON)).toBe(TEXT_OF_LESSON.replace('0:00:20', '0:00:40'));
  });

  test('titles stay those of the lesson, and it is told; so are a title that is missing or taken', () => {
    expect(marked('step: Both wheels straight', 'step: Wheels').notes).toEqual([
      expect.stringMatching(/^line \d+: the step is called "Both wheels straight" in the lesson, and stays so$/),
    ]);
    expect(marked('00:00:40:00', 'step:\n00:00:40:00').notes).toEqual([
      expect.stringMatching(/^line \d+: the step has no title$/),
    ]);
    expect(marked('00:00:40:00', 'step: Get ready\n00:00:40:00').notes).toEqual([
      expect.stringMatching(/^line \d+: "Get ready" is a chapter already: give the step another title$/),
    ]);
    expect(marked('(no words, 9 min 18 s)', '(no words, 9 min 18 s)\nstep: The end').notes).toEqual([
      expect.stringMatching(/^line \d+: no words of the recording follow the step "The end"$/),
    ]);
  });

  test('where there is no lesson yet, a step opens one with a chapter', () => {
    const { lesson } = marked('00:00:40:00', 'step: Tighten\n00:00:40:00', null);
    expect(lesson).toContain('## Brake pads, uncut\n<Cue at="0:00:40" />\n\n### Tighten\n<Cue at="0:00:40" />');
  });
});

describe('not a paper edit of this recording', () => {
  const one = desk({ words: SAID });
  test.each([
    [
      'another recording',
      () => one.paper().replace('Recording: pads', 'Recording: chain'),
      'this is a paper edit of "chain", not of pads',
    ],
    ['nothing', () => '', 'no words and no steps stand in the file'],
    ['other words', () => '00:00:04:00 Lorem [-ipsum-] dolor', 'none of its words are said in pads'],
  ])('%s', (_what, text, problem) => {
    expect(one.refused(text())).toBe(problem);
  });

  test('cutting everything is refused', () => {
    const text = one
      .paper()
      .replace(
        /^(={72}\n)([\s\S]*?)(={72}\n)/m,
        (_, a, body: string, b) =>
          `${a}${body.replaceAll(/^(?=\d.*(?:\w\.?|\))$)(?!.*(?:step|chapter):)/gm, '[cut] ')}${b}`,
      );
    expect(one.refused(text)).toBe('that would leave nothing of the recording in the programme');
  });
});
