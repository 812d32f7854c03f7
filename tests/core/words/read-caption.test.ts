import { expect, test } from 'vitest';
import { WebVTTParser } from 'webvtt-parser';
import { readCaptions } from '../../../src/core/read/index.ts';
import { correctWords, isUnread, markRead, unreadId } from '../../../src/core/words/index.ts';
import { applySplices } from '../../../src/core/write/index.ts';
import { at } from '../edit/support.ts';

const id = (start: number, end: number, text: string) => unreadId({ at: { start: at(start), end: at(end) }, text });
const FILE = `WEBVTT - from the shop floor

NOTE unread-0000 is no caption

${id(1, 4, 'Now loosen\nthe nut.')}
00:00:01.000 --> 00:00:04.000 line:0
Now <00:00:01.500>loosen
<00:00:02.500>the <00:00:03.000>nut.

01
00:00:05.000 --> 00:00:06.000
Read long ago &amp; kept.


${id(7, 9, 'Then tighten it.')}
00:00:07.000 --> 00:00:09.000
Then tighten it.
`;

const captions = (text: string) => readCaptions('media/a.vtt', text).captions;
const one = (text: string, index: number) => {
  const found = captions(text)[index];
  if (!found) throw new Error(`no caption ${index}`);
  return found;
};
const accept = (text: string, index: number) => applySplices(text, markRead(text, one(text, index)));
const correct = (text: string, index: number, words: string) =>
  applySplices(text, correctWords(text, one(text, index), words));
const ends = [
  ['LF', '\n'],
  ['CRLF', '\r\n'],
  ['CR', '\r'],
] as const;

test.each(ends)('accepting a caption takes the line of its mark out and no other byte, in a file with %s', (_, end) => {
  for (const mark of ['', '\uFEFF']) {
    const before = mark + FILE.replaceAll('\n', end);
    const after = accept(before, 0);
    expect(after).toBe(before.replace(`${id(1, 4, 'Now loosen\nthe nut.')}${end}`, ''));
    expect(captions(after).map(isUnread)).toEqual([false, false, true]);
    expect(accept(after, 2)).not.toContain(id(7, 9, 'Then tighten it.'));
  }
});

test.each(ends)(
  'words are corrected where they stand: times, settings and the rest stay, in a file with %s',
  (_, end) => {
    const before = FILE.replaceAll('\n', end);
    const after = correct(before, 0, 'Now slacken\nthe axle nut.');
    expect(after).toBe(
      before
        .replace(`${id(1, 4, 'Now loosen\nthe nut.')}${end}`, '')
        .replace('loosen', 'slacken')
        .replace('the <00:00:03.000>nut', 'the axle <00:00:03.000>nut'),
    );
  },
);

// What the W3C's own parser of WebVTT reads is what was typed, and its times are those before.
test.each([
  ['Now loosen\nthe nut.', 'Now loosen the nut.'],
  ['Loosen 5 < 6 & 7 --> 8', 'Loosen 5 < 6 & 7 --> 8'],
  ['  two\n\n\nlines  ', 'two lines'],
  ['NOTE', 'NOTE'],
])('%j typed is read back by a parser of the standard', (typed, read) => {
  const tree = new WebVTTParser({ '&amp': '&', '&lt': '<', '&gt': '>' }).parse(correct(FILE, 0, typed), '');
  expect(tree.errors).toEqual([]);
  const cue = tree.cues[0];
  expect([cue?.startTime, cue?.endTime]).toEqual([1, 4]);
  expect(one(correct(FILE, 0, typed), 0).text.replaceAll('\n', ' ')).toBe(read);
  expect(tree.cues).toHaveLength(3);
});

test('the words as they were are only accepted; without words the caption goes, and nothing else', () => {
  expect(correct(FILE, 0, 'Now loosen\nthe nut.')).toBe(accept(FILE, 0));
  const from = FILE.indexOf('unread-', 60);
  expect(correct(FILE, 0, ' ')).toBe(FILE.slice(0, from) + FILE.slice(FILE.indexOf('01\n')));
  expect(captions(correct(FILE, 2, '')).map(({ text }) => text)).toEqual([
    'Now loosen\nthe nut.',
    'Read long ago & kept.',
  ]);
});
