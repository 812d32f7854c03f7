import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  contains,
  editList,
  invert,
  jumps,
  lengthOf,
  rangeToProgramme,
  rangeToRecording,
  runtime,
  ticks,
  toProgramme,
  toRecording,
  toSeconds,
} from '../../../src/core/time/index.ts';
import { at, edit, editLists, LENGTH, moments, ranges, shown, span, spans } from '../../support/edit.ts';

// Half-open ranges: the in point is kept, the out point is not (common practice, no source).
test.each([
  [0, 0, ''],
  [3, 3, ''],
  [4, 4, 'cut'],
  [5, 4, 'cut'],
  [6, 4, ''],
  [19, 17, ''],
  [20, 18, 'cut'],
  [99, 18, 'cut'],
])('keeping 0-4 and 6-20, %d s of the recording is %d s of the programme %s', (from, to, cut) => {
  const placed = toProgramme(edit('0-4 6-20'), at(from));
  expect([toSeconds(placed.at), placed.cut ? 'cut' : '']).toEqual([to, cut]);
});

test('the cut that a moment falls in comes back whole', () => {
  const list = edit('2-4 6-20');
  expect(spans([toProgramme(list, at(1)).cut ?? span('0-0')])).toBe('0-2');
  expect(spans([toProgramme(list, at(4)).cut ?? span('0-0')])).toBe('4-6');
});

test.each([
  ['after', 0, 0],
  ['after', 4, 6],
  ['before', 4, 4],
  ['after', 18, 20],
  ['before', 18, 20],
  ['after', 99, 20],
] as const)('leaning %s, programme second %d of 0-4 and 6-20 is recording second %d', (leaning, from, to) => {
  expect(toSeconds(toRecording(edit('0-4 6-20'), shown(from), leaning))).toBe(to);
});

test('an empty edit list is an empty programme', () => {
  expect(runtime([])).toBe(0);
  expect(toProgramme([], at(5)).cut).toBeDefined();
  expect(toRecording([], shown(0), 'after')).toBe(0);
  expect(rangeToProgramme([], span('0-9'))).toEqual([]);
});

test('touching and overlapping ranges become one, empty ones none', () => {
  expect(spans(editList([span('6-9'), span('0-4'), span('4-5'), span('3-4'), span('5-5')]))).toBe('0-5 6-9');
  expect(editList([span('3-3')])).toEqual([]);
  expect(spans(editList([span('0-9'), span('3-4')]))).toBe('0-9');
});

test('past the end of the programme is the end of the last range kept', () => {
  for (const [list, end] of [
    ['2-4', 4],
    ['0-4 6-20 30-40', 40],
  ] as const)
    expect(toSeconds(toRecording(edit(list), shown(99), 'after'))).toBe(end);
});

test('a range without length has no pieces, either way', () => {
  const list = edit('0-4 6-20');
  for (const second of [0, 2, 4, 5, 18, 99]) {
    expect(rangeToProgramme(list, span(`${second}-${second}`))).toEqual([]);
    expect(rangeToRecording(list, { start: shown(second), end: shown(second) })).toEqual([]);
  }
});

test('a range over a cut becomes several pieces, either way', () => {
  const list = edit('0-4 6-20 30-40');
  expect(spans(rangeToProgramme(list, span('3-35')))).toBe('3-4 4-18 18-23');
  expect(spans(rangeToRecording(list, { start: shown(3), end: shown(19) }))).toBe('3-4 6-20 30-31');
  expect(rangeToProgramme(list, span('4-6'))).toEqual([]);
});

test('every jump names the cut it jumps over', () => {
  expect(jumps(edit('0-4 6-20 30-40')).map(({ at: when, cut }) => `${toSeconds(when)}: ${spans([cut])}`)).toEqual([
    '4: 4-6',
    '18: 20-30',
  ]);
});

test('what is kept comes back from the programme to where it was', () => {
  fc.assert(
    fc.property(editLists, moments, (list, moment) => {
      const { at: when, cut } = toProgramme(list, moment);
      expect(cut !== undefined || toRecording(list, when, 'after') === moment).toBe(true);
    }),
  );
});

test('every moment of the programme comes back from the recording', () => {
  fc.assert(
    fc.property(
      editLists.filter((list) => list.length > 0),
      fc.double({ min: 0, max: 0.999_999, noNaN: true }),
      (list, share) => {
        const moment = ticks<'programme'>(Math.floor(share * runtime(list)));
        expect(toProgramme(list, toRecording(list, moment, 'after'))).toEqual({ at: moment });
      },
    ),
  );
});

test('a moment counts as cut just where no kept range holds it', () => {
  fc.assert(
    fc.property(editLists, moments, (list, moment) => {
      expect(toProgramme(list, moment).cut === undefined).toBe(list.some((kept) => contains(kept, moment)));
    }),
  );
});

test('programme time never runs backwards', () => {
  fc.assert(
    fc.property(editLists, moments, moments, (list, a, b) => {
      const [first, second] = a < b ? [a, b] : [b, a];
      expect(toProgramme(list, first).at).toBeLessThanOrEqual(toProgramme(list, second).at);
    }),
  );
});

test('kept and cut together are the recording', () => {
  fc.assert(
    fc.property(editLists, (list) => {
      expect(runtime(list) + runtime(invert(list, LENGTH))).toBe(LENGTH);
      expect(invert(invert(list, LENGTH), LENGTH)).toEqual(list);
      expect(editList([...list, ...invert(list, LENGTH)])).toEqual([{ start: 0, end: LENGTH }]);
    }),
  );
});

test('the pieces of a range are as long as what stays of it, and lie in order', () => {
  fc.assert(
    fc.property(editLists, ranges, (list, wanted) => {
      const pieces = rangeToProgramme(list, wanted);
      const kept = editList(
        list.map((k) => ({ start: ticks(Math.max(k.start, wanted.start)), end: ticks(Math.min(k.end, wanted.end)) })),
      );
      expect(pieces.reduce((sum, piece) => sum + lengthOf(piece), 0)).toBe(runtime(kept));
      expect(pieces.every((piece, i) => i === 0 || piece.start >= (pieces[i - 1]?.end ?? 0))).toBe(true);
      expect(pieces.flatMap((piece) => rangeToRecording(list, piece))).toEqual(kept);
    }),
  );
});

test('a list cut in two anywhere maps as the whole one does', () => {
  fc.assert(
    fc.property(editLists, ranges, (list, wanted) => {
      const naive = list.filter((kept) => kept.end <= wanted.start).reduce((sum, kept) => sum + lengthOf(kept), 0);
      const inside = list.find((kept) => contains(kept, wanted.start));
      expect(toProgramme(list, wanted.start).at).toBe(naive + (inside ? wanted.start - inside.start : 0));
    }),
  );
});
