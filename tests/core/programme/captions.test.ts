import fc from 'fast-check';
import { expect, test } from 'vitest';
import { writeSrt, writeVtt } from '../../../src/core/interchange/index.ts';
import type { Caption } from '../../../src/core/model/index.ts';
import { retimeCaptions } from '../../../src/core/programme/index.ts';
import { readCaptions } from '../../../src/core/read/index.ts';
import { range, TICKS_PER_SECOND, ticks, toSeconds } from '../../../src/core/time/index.ts';
import { edit, editLists, LENGTH } from '../../support/edit.ts';

const captions = (...cues: string[]): readonly Caption[] =>
  readCaptions('a.vtt', `WEBVTT\n\n${cues.join('\n\n')}\n`).captions;
const shown = (list: string, ...cues: string[]) => {
  const { captions: made, cut } = retimeCaptions(captions(...cues), edit(list));
  return {
    made: made.map(({ at, text }) => `${toSeconds(at.start)}-${toSeconds(at.end)} ${text}`),
    cut: cut.map(({ from, lost, lostWords }) => `${from.text}: ${toSeconds(lost)} s, lost "${lostWords}"`),
  };
};

test('a caption that stays moves along, one that is cut goes with its words', () => {
  expect(
    shown(
      '2-10 20-30',
      '00:03.000 --> 00:05.000\nstays',
      '00:12.000 --> 00:15.000\ngoes',
      '00:21.000 --> 00:23.000\nmoves',
    ),
  ).toEqual({
    made: ['1-3 stays', '9-11 moves'],
    cut: [],
  });
});

test('a caption that a cut goes through is clipped, keeps its words, and is told', () => {
  expect(shown('0-10', '00:08.000 --> 00:12.000\nmind the spring')).toEqual({
    made: ['8-10 mind the spring'],
    cut: ['mind the spring: 2 s, lost ""'],
  });
});

test('over a cut in its middle it runs on across the join', () => {
  expect(shown('0-10 11-20', '00:08.000 --> 00:13.000\nmind the spring').made).toEqual(['8-12 mind the spring']);
});

test('a rest too short to read is given up, and its words are told', () => {
  expect(shown('0-8.2', '00:08.000 --> 00:12.000\nmind the spring')).toEqual({
    made: [],
    cut: ['mind the spring: 3.8 s, lost "mind the spring"'],
  });
});

test('with word times each side of a cut keeps its own words', () => {
  const cue =
    '00:08.000 --> 00:14.000\n<v Ann>Mind <00:00:09.000>the <00:00:10.500>very <00:00:12.000>big <00:00:13.000>spring';
  const { captions: made, cut } = retimeCaptions(captions(cue), edit('0-10 11.5-20'));
  expect(made.map(({ at, markup }) => `${toSeconds(at.start)}-${toSeconds(at.end)} ${markup}`)).toEqual([
    '8-10 <v Ann>Mind <00:00:09.000>the ',
    '10-12.5 <v Ann>big <00:00:11.500>spring',
  ]);
  expect(cut[0]?.lostWords).toBe('very');
});

test('word times inside a caption move with it', () => {
  const [made] = retimeCaptions(captions('00:21.000 --> 00:24.000\na <00:00:22.000>b'), edit('20-30')).captions;
  expect(made?.markup).toBe('a <00:00:02.000>b');
});

const MS = TICKS_PER_SECOND / 1000;
const words = fc.array(fc.stringMatching(/^[a-zA-Zäß€.,!?'-]{1,9}$/), { minLength: 1, maxLength: 8 });
const cues = fc
  .array(
    fc.tuple(
      fc.integer({ min: 0, max: LENGTH / MS - 20_000 }),
      fc.integer({ min: 1, max: 9_000 }),
      words,
      fc.boolean(),
    ),
    { maxLength: 20 },
  )
  .map((rows) =>
    rows
      .toSorted(([a], [b]) => a - b)
      .map(([start, length, list, broken], i): Caption => {
        const text = list.join(broken ? '\n' : ' ');
        const point = { line: 1, column: 1, offset: 0 };
        const place = { file: 'a.vtt', start: point, end: point };
        return {
          id: `c${i}`,
          at: range(ticks(start * MS), ticks((start + length) * MS)),
          markup: text,
          text,
          settings: '',
          place,
        };
      }),
  );

test('retimed by the whole recording, written and read again, captions are the same', () => {
  fc.assert(
    fc.property(cues, (list) => {
      const { captions: made, cut } = retimeCaptions(list, [range(ticks(0), LENGTH)]);
      expect(cut).toEqual([]);
      const again = readCaptions('a.vtt', writeVtt(made));
      expect(again.diagnostics).toEqual([]);
      const plain = ({ id, at, markup, settings }: Caption) => ({ id, at, markup, settings });
      expect(again.captions.map(plain)).toEqual(list.map(plain));
      const srt = readCaptions('a.srt', writeSrt(made).text);
      expect(srt.captions.map(({ at, text }) => ({ at, text }))).toEqual(list.map(({ at, text }) => ({ at, text })));
    }),
  );
});

test('whatever is cut, each caption is shown whole, told as cut, or lies in a cut', () => {
  fc.assert(
    fc.property(cues, editLists, (list, kept) => {
      const { captions: made, cut } = retimeCaptions(list, kept);
      for (const caption of list) {
        const whole = kept.some((range) => range.start <= caption.at.start && caption.at.end <= range.end);
        const gone = !kept.some((range) => range.start < caption.at.end && caption.at.start < range.end);
        const isShown = made.some(({ from }) => from === caption);
        const told = cut.some(({ from }) => from === caption);
        expect([whole, gone, !whole && !gone]).toEqual([isShown && !told, !isShown && !told, told]);
      }
      expect(made.every(({ at }) => at.end > at.start)).toBe(true);
      expect(made.every(({ at }, i) => i === 0 || at.start >= made[i - 1]!.at.start)).toBe(true);
    }),
  );
});
