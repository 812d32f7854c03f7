import { expect, test } from 'vitest';
import { readCaptions } from '../../../src/core/read/index.ts';
import { spokenWords, unreadId } from '../../../src/core/words/index.ts';
import { at, open, playheadAt, run } from './support.ts';

const mark = unreadId({ at: { start: at(10), end: at(14) }, text: 'Now loosen\nthe nut.' });
const VTT = `WEBVTT

00:20.000 --> 00:24.000
Half & <i>quarter</i>

${mark}
00:10.000 --> 00:14.000
Now <00:00:11.500>loosen
<00:00:12.500>the <00:00:13.000>nut.
`;
const words = (text = VTT) =>
  spokenWords(readCaptions('a.vtt', text).captions).map(
    ({ at: { start, end }, text: word, unread }) => `${start / at(1)}-${end / at(1)} ${word}${unread ? ' unread' : ''}`,
  );

test('words stand at their own times, in order; without any they share the caption by their letters', () => {
  expect(words()).toEqual([
    '10-11.5 Now unread',
    '11.5-12.5 loosen unread',
    '12.5-13 the unread',
    '13-14 nut. unread',
    // 4, 1 and 7 of twelve letters in four seconds.
    ...['20-21.333 Half', '21.333-21.667 &', '21.667-24 quarter'].map((each) => expect.stringMatching(near(each))),
  ]);
  expect(words('WEBVTT\n')).toEqual([]);
});

function near(words: string): RegExp {
  return new RegExp(`^${words.replaceAll(/\.(\d+)/g, '\\.$1\\d*').replaceAll('667', '66\\d')}$`);
}

test('a run of words is chosen and cut by the keys of a range: jump by word, in, out, cut', () => {
  const starts = [1810, 1811.52, 1812.52].map((second) => at(second - 1700));
  const first = open();
  const heard = { ...first, found: { ...first.found, word: starts } };
  const second = run(run(playheadAt(heard, 100), 'by-word'), 'jump-on');
  const marked = run(run(run(second, 'in'), 'jump-on'), 'out');
  expect([marked.marks.in, marked.marks.out]).toEqual([at(110), at(111.52)]);
  expect(run(marked, 'cut').view.kept.some(({ end }) => end === at(110))).toBe(true);
});
