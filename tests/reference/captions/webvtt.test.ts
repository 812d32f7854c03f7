import { parseText } from 'media-captions';
import { expect, test } from 'vitest';
import { WebVTTParser } from 'webvtt-parser';
import { writeSrt, writeVtt } from '../../../src/core/interchange/index.ts';
import { captionTime, readCaptions } from '../../../src/core/read/index.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { published } from '../../support/published.ts';
import copied from './webvtt.json' with { type: 'json' };

const reference = published(copied);
const GRAMMAR = reference.values['W3C WebVTT, 2019, section 4.1 and web-platform-tests webvtt/parsing/file-parsing'];
const CHAPTERS = reference.values['W3C WebVTT, 2019, section 1.4, chapters example'];

const strictly = (text: string) => {
  const time = captionTime(text);
  return time.ok && time.value.strict && time.value.length === text.length ? toSeconds(time.value.at) : undefined;
};

test.each(GRAMMAR.timestamps)('$text is $seconds s', ({ text, seconds }) => {
  if (seconds > 3500 * 3600) expect(captionTime(text).ok).toBe(false);
  else expect(strictly(text)).toBe(seconds);
});

test('what is no WebVTT time is refused', () => {
  for (const text of GRAMMAR.noTimestamps) expect(strictly(text), text).toBeUndefined();
});

test('a file with a signature is a WebVTT file', () => {
  for (const text of GRAMMAR.signatures)
    expect(readCaptions('a.vtt', text), JSON.stringify(text)).toMatchObject({ format: 'vtt', diagnostics: [] });
});

test('a file without one is none, and that is told', () => {
  for (const text of GRAMMAR.noSignatures)
    expect(readCaptions('a.vtt', text).diagnostics[0]?.rule, JSON.stringify(text)).toBe('caption-not-webvtt');
});

// web-platform-tests, webvtt/parsing/file-parsing/support, commit 2a5828b795ab: what each file puts before a parser and
// the cues (id: words) it must give, carried over as facts.
const ONE = '00:00:00.000 --> 00:00:01.000';
test.each<[string, string, string[]]>([
  [
    'arrows',
    `-->\n${ONE}\na1\nfoo-->\n${ONE}\na2\n-->foo\n${ONE}\na3\n--->\n${ONE}\na4\n-->-->\n${ONE}\na5\n${ONE}\na6\n\n00:00:00.000 -a -->\n\n00:00:00.000 - -->\n`,
    [': a1', ': a2', ': a3', ': a4', ': a5', ': a6'],
  ],
  [
    'ids',
    ` leading\n${ONE}\na1\n\ntrailing \n${ONE}\na2\n\n-- >\n${ONE}\na3\n\n->\n${ONE}\na4\n\n \n${ONE}\na5`,
    [' leading: a1', 'trailing : a2', '-- >: a3', '->: a4', ' : a5'],
  ],
  [
    'whitespace-chars',
    'spaces\n   00:00:00.000    -->  00:00:01.000 \n   a1\n\ntabs\n\t\t00:00:00.000\t\t-->\t\t00:00:01.000\t\na2\n\nform feed\n\f00:00:00.000\f-->\f00:00:01.000\f\na3\n\nvertical tab\n\v00:00:00.000\v-->\v00:00:01.000\v\na4\n',
    ['spaces:    a1', 'tabs: a2', 'form feed: a3'],
  ],
  [
    'timings-omitted-hours',
    `00:00.000 --> 00:00:01.000\na1\n\n00:00:00.000 --> 00:01.000\na2\n\n00:00.000 --> 00:01.000\na3\n`,
    [': a1', ': a2', ': a3'],
  ],
])('%s is read as web-platform-tests have it', (_name, text, words) => {
  const { captions } = readCaptions('a.vtt', `WEBVTT\n\n${text}`);
  expect(captions.map((caption) => `${caption.id ?? ''}: ${caption.text}`)).toEqual(words);
});

// timings-negative there gives four cues that end as or before they start. A range cannot: here they are told, not kept.
test('a caption that ends before it starts is told', () => {
  const { captions, diagnostics } = readCaptions('a.vtt', 'WEBVTT\n\n00:00:01.000 --> 00:00:00.999\na\n');
  expect([captions.length, diagnostics[0]?.message]).toEqual([
    0,
    'the caption ends before it starts, so "a" is left out',
  ]);
});

// The same folder's tests/: header-timings, signature-no-newline, timings-eof, nulls (values from memory).
test.each<[string, string, string[]]>([
  ['header-timings', `WEBVTT\n${ONE}\na1\n\n${ONE}\na2\n`, ['a1', 'a2']],
  ['signature-no-newline', 'WEBVTT', []],
  ['timings-eof', `WEBVTT\n\n${ONE}`, ['']],
  ['nulls', `WEBVTT\n\n${ONE}\n\0a\n`, ['\uFFFDa']],
])('%s is read as browsers do', (_name, text, words) => {
  expect(readCaptions('a.vtt', text).captions.map((caption) => caption.text)).toEqual(words);
});

const timed = (pairs: readonly (readonly string[])[]) =>
  readCaptions(
    'a.vtt',
    `WEBVTT\n\n${pairs.map(([start, end, text = 'x']) => `${start} --> ${end}\n${text}`).join('\n\n')}\n`,
  ).captions;

test('SubRip and WebVTT say the same times', () => {
  for (const [srt = '', vtt = ''] of reference.values['SubRip as ffmpeg 5.1 writes it (no standard)']) {
    const [fromSrt] = readCaptions('a.srt', `1\n${srt}\nx\n`).captions;
    const [fromVtt] = readCaptions('a.vtt', `WEBVTT\n\n${vtt}\nx\n`).captions;
    expect(fromSrt?.at).toEqual(fromVtt?.at);
    expect(writeSrt([{ at: fromVtt!.at, markup: 'x', settings: '' }]).text).toBe(`1\n${srt}\nx\n`);
  }
});

test('what is written, an independent strict parser reads without a fault, cue for cue', () => {
  const captions = [
    ...timed(CHAPTERS),
    ...readCaptions(
      'b.vtt',
      'WEBVTT\n\na\n01:00:00.500 --> 01:00:02.000 line:0 align:left\n<v Ann>Mind &lt;it&gt;\nnow\n',
    ).captions,
  ];
  const text = writeVtt(captions);
  const parsed = new WebVTTParser({ amp: '&', lt: '<', gt: '>' }).parse(text, 'metadata');
  expect(parsed.errors).toEqual([]);
  expect(parsed.cues.map(({ startTime, endTime, text: words }) => [startTime, endTime, words])).toEqual(
    captions
      .toSorted((a, b) => a.at.start - b.at.start)
      .map(({ at, markup }) => [toSeconds(at.start), toSeconds(at.end), markup]),
  );
});

test('media-captions reads the same cues from the same files, WebVTT and SRT', async () => {
  const captions = timed(CHAPTERS);
  const key = (start: number, end: number, words: string) => `${start} ${end} ${words}`;
  const ours = captions.map(({ at, text }) => key(toSeconds(at.start), toSeconds(at.end), text)).toSorted();
  const vtt = await parseText(writeVtt(captions), { type: 'vtt', errors: true });
  expect(vtt.cues.map((cue) => key(cue.startTime, cue.endTime, cue.text)).toSorted()).toEqual(ours);
  expect(vtt.errors).toEqual([]);
  const srt = await parseText(writeSrt(captions).text, { type: 'srt', errors: true });
  expect(srt.cues.map((cue) => key(cue.startTime, cue.endTime, cue.text)).toSorted()).toEqual(ours);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
