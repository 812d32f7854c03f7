import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  common,
  contains,
  diffInWords,
  type EditList,
  editDiff,
  editList,
  evenGrid,
  FRAME_RATES,
  insert,
  isKept,
  lengthOf,
  range,
  remove,
  ripple,
  runtime,
  shift,
  snapEdit,
  split,
  ticks,
  toSeconds,
  trim,
  within,
  without,
} from '../../../src/core/time/index.ts';
import { at, edit, editLists, LENGTH, moments, ranges, shown, span, spans } from '../../support/edit.ts';

const sound = (list: EditList) =>
  list.every((kept, i) => kept.end > kept.start && (i === 0 || kept.start > (list[i - 1]?.end ?? Number.NaN)));
const holds = (list: EditList, moment: number) => list.some((kept) => contains(kept, ticks(moment)));

test.each([
  ['0-10', '4-6', '0-4 6-10'],
  ['0-10', '0-6', '6-10'],
  ['0-10', '6-10', '0-6'],
  ['0-4 6-20', '3-7', '0-3 7-20'],
  ['0-4 6-20', '0-20', ''],
  ['0-4 6-20', '4-6', '0-4 6-20'],
  ['0-4 6-20', '5-5', '0-4 6-20'],
  ['0-10', '5-5', '0-10'],
])('%s without %s is %s', (list, cut, left) => {
  expect(spans(remove(edit(list), span(cut)))).toBe(left);
});

test.each([
  ['0-4 6-20', '4-6', '0-20'],
  ['0-4 6-20', '5-5.5', '0-4 5-5.5 6-20'],
  ['0-4 6-20', '30-40', '0-4 6-20 30-40'],
  ['0-4 6-20', '1-2', '0-4 6-20'],
])('%s with %s put in is %s', (list, put, has) => {
  expect(spans(insert(edit(list), span(put)))).toBe(has);
});

test('removing is keeping everything else', () => {
  fc.assert(
    fc.property(editLists, ranges, moments, (list, cut, moment) => {
      const left = remove(list, cut);
      expect(sound(left)).toBe(true);
      expect(holds(left, moment)).toBe(holds(list, moment) && !contains(cut, moment));
      expect(runtime(left)).toBe(runtime(list) - runtime(within(list, cut)));
      expect(remove(left, cut)).toEqual(left);
    }),
  );
});

test('inserting is keeping that too, and undoes what removing took from the list', () => {
  fc.assert(
    fc.property(editLists, ranges, moments, (list, put, moment) => {
      const has = insert(list, put);
      expect(sound(has)).toBe(true);
      expect(holds(has, moment)).toBe(holds(list, moment) || contains(put, moment));
      expect(within(list, put).reduce<EditList>(insert, remove(list, put))).toEqual(list);
    }),
  );
});

test('without, common and their sum are set algebra', () => {
  fc.assert(
    fc.property(editLists, editLists, moments, (a, b, moment) => {
      expect(sound(without(a, b)) && sound(common(a, b))).toBe(true);
      expect(holds(without(a, b), moment)).toBe(holds(a, moment) && !holds(b, moment));
      expect(holds(common(a, b), moment)).toBe(holds(a, moment) && holds(b, moment));
      expect(common(a, b)).toEqual(common(b, a));
      expect(editList([...without(a, b), ...common(a, b)])).toEqual(a);
    }),
  );
});

test('a split loses nothing and shares nothing', () => {
  fc.assert(
    fc.property(editLists, moments, (list, moment) => {
      const [first, second] = split(list, moment);
      expect(editList([...first, ...second])).toEqual(list);
      expect(runtime(first) + runtime(second)).toBe(runtime(list));
      expect(common(first, second)).toEqual([]);
    }),
  );
});

test('the chapters of a recording share out its programme', () => {
  fc.assert(
    fc.property(editLists, fc.array(moments, { maxLength: 8 }), (list, marks) => {
      const edges = [ticks<'recording'>(0), ...marks.toSorted((a, b) => a - b), LENGTH];
      const parts = edges.slice(1).map((end, i) => within(list, range(edges[i] ?? end, end)));
      expect(parts.reduce((sum, part) => sum + runtime(part), 0)).toBe(runtime(list));
    }),
  );
});

test.each([
  ['out', 1, 18, '0-4 6-18 30-40', -2],
  ['out', 1, 25, '0-4 6-25 30-40', 5],
  ['out', 1, 35, '0-4 6-40', 10], // stops at the next range and joins it
  ['in', 1, 8, '0-4 8-20 30-40', -2],
  ['in', 1, 1, '0-20 30-40', 2], // stops at the range before
  ['out', 1, 5, '0-4 30-40', -14], // moved past its own in point: gone
  ['in', 2, 45, '0-4 6-20', -10],
] as const)('the %s point of range %d moved to %d s', (point, index, to, list, moved) => {
  const trimmed = trim(edit('0-4 6-20 30-40'), index, point, at(to));
  expect(spans(trimmed.edit)).toBe(list);
  expect(toSeconds(trimmed.ripple)).toBe(moved);
});

test('a range that is not there cannot be trimmed', () => {
  expect(() => trim(edit('0-4'), 1, 'in', at(1))).toThrow(RangeError);
});

test.each([
  [2, 1, '0-5 6-20', 1],
  [4, -1, '0-3 6-20', -1], // a join belongs to the range that ends there
  [10, 3, '0-4 6-23', 3],
  [2, -9, '6-20', -4],
])('pulling the programme at %d s by %d s', (when, by, list, moved) => {
  const pulled = ripple(edit('0-4 6-20'), shown(when), at(by));
  expect([spans(pulled.edit), toSeconds(pulled.ripple)]).toEqual([list, moved]);
});

test('a file put in front moves every range along', () => {
  expect(spans(shift(edit('0-4 6-20'), at(10)))).toBe('10-14 16-30');
  expect(spans(shift(edit('0-4 6-20'), at(-5)))).toBe('1-15');
});

test('snapping keeps all that was kept, and no more than a frame to each side', () => {
  const rate = FRAME_RATES['29.97'];
  fc.assert(
    fc.property(editLists, (list) => {
      const snapped = snapEdit(list, evenGrid(rate));
      expect(sound(snapped)).toBe(true);
      expect(without(list, snapped)).toEqual([]);
      expect(
        snapped.every((kept) => kept.start % rate.ticksPerFrame === 0 && kept.end % rate.ticksPerFrame === 0),
      ).toBe(true);
      expect(without(snapped, list).every((extra) => lengthOf(extra) < 2 * rate.ticksPerFrame)).toBe(true);
      expect(snapEdit(snapped, evenGrid(rate))).toEqual(snapped);
    }),
  );
});

test('a stretch is kept when any of it is', () => {
  const list = edit('0-4 6-20');
  expect([
    isKept(list, span('3-5')),
    isKept(list, span('4-6')),
    isKept(list, span('5-7')),
    isKept(list, span('20-30')),
  ]).toEqual([true, false, true, false]);
});

const parts = [
  { name: 'chapter 1', at: span('0-100') },
  { name: 'chapter 2', at: span('100-300') },
  { name: 'step "Seat the clip"', at: span('280-300') },
];

test.each([
  ['0-300', '0-300', []],
  ['0-300', '0-150 222-300', ['chapter 2 lost 1:12', 'the programme is 1:12 shorter: 0:03:48, was 0:05:00']],
  [
    '0-300',
    '0-297',
    [
      'chapter 2 is now cut off 3 s early',
      'step "Seat the clip" is now cut off 3 s early',
      'the programme is 3 s shorter: 0:04:57, was 0:05:00',
    ],
  ],
  [
    '10-300',
    '0-290',
    [
      'chapter 1 now starts 10 s early',
      'chapter 2 is now cut off 10 s early',
      'step "Seat the clip" is now cut off 10 s early',
      'the programme is as long as before: 0:04:50',
    ],
  ],
  [
    '0-300',
    '100-300',
    ['chapter 1 is now cut out whole (1:40)', 'the programme is 1:40 shorter: 0:03:20, was 0:05:00'],
  ],
  ['100-300', '0-50 100-300', ['chapter 1 is back (50 s)', 'the programme is 50 s longer: 0:04:10, was 0:03:20']],
] as const)('from %s to %s, in words', (before, after, words) => {
  expect(diffInWords(edit(before), edit(after), parts)).toEqual(words);
});

test('a diff applied to the list before gives the list after', () => {
  fc.assert(
    fc.property(editLists, editLists, (before, after) => {
      const { lost, gained, same } = editDiff(before, after);
      expect(editList([...without(before, lost), ...gained])).toEqual(after);
      expect(runtime(same) + runtime(lost)).toBe(runtime(before));
      expect(runtime(same) + runtime(gained)).toBe(runtime(after));
    }),
  );
});
