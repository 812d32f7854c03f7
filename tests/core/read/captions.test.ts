import { expect, test } from 'vitest';
import { captionWords, fromSrtText, readCaptions, timedWords } from '../../../src/core/read/index.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { at } from '../../support/edit.ts';

const seen = (file: string, text: string) => {
  const { captions, diagnostics } = readCaptions(file, text);
  return {
    cues: captions.map(
      ({ at: { start, end }, text: words, id }) => `${id ?? ''}|${toSeconds(start)}-${toSeconds(end)}|${words}`,
    ),
    told: diagnostics.map(({ rule, place, message }) => `${rule} ${place.start.line}:${place.start.column} ${message}`),
  };
};

const VTT = `WEBVTT Kind: captions

NOTE the first take

STYLE
::cue { color: white }

one
00:12.000 --> 00:16.500 line:0 align:left
<v Instructor>Mind the <b>spring</b>.
It jumps &amp; bites.

00:20.000 --> 00:22.000
Again.
`;

test('captions come with ids, times, words, settings and blocks', () => {
  const { captions, blocks, format } = readCaptions('a.vtt', VTT);
  expect(format).toBe('vtt');
  expect(blocks).toEqual(['STYLE\n::cue { color: white }']);
  expect(captions[0]).toMatchObject({
    id: 'one',
    text: 'Mind the spring.\nIt jumps & bites.',
    markup: '<v Instructor>Mind the <b>spring</b>.\nIt jumps &amp; bites.',
    settings: 'line:0 align:left',
  });
  expect(captions).toHaveLength(2);
});

test('every caption knows its place', () => {
  const { captions } = readCaptions('a.vtt', VTT);
  const [first, second] = captions;
  expect(first?.place.start).toEqual({ line: 8, column: 1, offset: VTT.indexOf('one') });
  expect(VTT.slice(first?.place.start.offset, first?.place.end.offset)).toBe(
    'one\n00:12.000 --> 00:16.500 line:0 align:left\n<v Instructor>Mind the <b>spring</b>.\nIt jumps &amp; bites.',
  );
  expect(VTT.slice(second?.place.start.offset, second?.place.end.offset)).toBe('00:20.000 --> 00:22.000\nAgain.');
});

test.each([
  ['carriage return and line feed', (s: string) => s.replaceAll('\n', '\r\n')],
  ['carriage return alone', (s: string) => s.replaceAll('\n', '\r')],
  ['a byte order mark', (s: string) => `\uFEFF${s}`],
  ['no last line end', (s: string) => s.trimEnd()],
])('with %s a file says the same', (_what, change) => {
  expect(seen('a.vtt', change(VTT))).toEqual(seen('a.vtt', VTT));
  const srt = '1\n00:00:01,000 --> 00:00:02,000\nOne\n\n2\n00:00:03,000 --> 00:00:04,000\nTwo\nlines\n';
  expect(seen('a.srt', change(srt))).toEqual({ cues: ['1|1-2|One', '2|3-4|Two\nlines'], told: [] });
});

test('nothing vanishes without a word', () => {
  const { cues, told } = seen(
    'a.vtt',
    'WEBVTT\n\nlost words\n\n00:10.000 --> 00:09.000\nbackwards\n\n00:99.000 --> 01:00.000\nno such second\n\n00:01.000 --> 00:02.000\nkept\n',
  );
  expect(cues).toEqual(['|1-2|kept']);
  expect(told).toEqual([
    'caption-unreadable 3:1 "lost words" stands there without a time',
    'caption-unreadable 5:1 the caption ends before it starts, so "backwards" is left out',
    'caption-unreadable 8:1 "00:99.000" has a minute or second past 59, so "no such second" is left out',
  ]);
});

test('times as people write them are read, and told where a browser would skip them', () => {
  const { cues, told } = seen('a.vtt', 'WEBVTT\n\n00:00:01,500 --> 0:02\ncomma\n');
  expect(cues).toEqual(['|1.5-2|comma']);
  expect(told[0]).toContain('caption-time-loose 3:1');
  expect(seen('a.srt', '00:00:01.500 --> 00:00:02\ndot\n')).toEqual({ cues: ['|1.5-2|dot'], told: [] });
});

test('a second arrow begins the next caption', () => {
  const { cues } = seen('a.vtt', 'WEBVTT\n\n00:01.000 --> 00:02.000\none\n00:03.000 --> 00:04.000\ntwo\n');
  expect(cues).toEqual(['|1-2|one', '|3-4|two']);
});

test('blank lines inside an SRT caption, and a missing one between two, lose nothing', () => {
  const { cues, told } = seen(
    'a.srt',
    '1\n00:00:01,000 --> 00:00:02,000\none\n\nmore of one\n2\n00:00:03,000 --> 00:00:04,000\ntwo\n\n\n\n3\n00:00:05,000 --> 00:00:06,000\n\n42\n',
  );
  expect(cues).toEqual(['1|1-2|one\nmore of one', '2|3-4|two', '3|5-6|42']);
  expect(told).toEqual([]);
});

test('codes of SRT become WebVTT where it has them, and are told where not', () => {
  expect(fromSrtText('{\\an8}<I>Mind</I> a < b & c &amp; d')).toEqual({
    markup: '<i>Mind</i> a &lt; b &amp; c &amp; d',
    settings: 'line:0',
    left: [],
  });
  expect(fromSrtText('<font color="#fff">x</font>{\\pos(1,2)}').left).toHaveLength(3);
});

test('character references are read, unknown ones stay', () => {
  expect(captionWords('&lt;b&gt; &#39;x&#x27; &nbsp;&hearts; &amp;lt;')).toBe("<b> 'x' \u00A0&hearts; &lt;");
});

test('word times part a caption into runs', () => {
  expect(
    timedWords('Mind <00:00:02.000>the <00:00:03.000>spring', at(1)).map(({ at: when, markup }) => [
      toSeconds(when),
      markup,
    ]),
  ).toEqual([
    [1, 'Mind '],
    [2, 'the '],
    [3, 'spring'],
  ]);
});

test('a ruined file is told a hundred times and then counted', () => {
  const text = `WEBVTT\n\n${'x --> y\nlost\n\n'.repeat(500)}`;
  const { told } = seen('a.vtt', text);
  expect(told).toHaveLength(101);
  expect(told.at(-1)).toContain('and 400 more problems');
});
