import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  common,
  contains,
  diffInWords,
  type EditEntry,
  type EditList,
  editList,
  putBack,
  range,
  runtime,
  showBy,
  ticks,
  within,
  without,
  withoutOverlaps,
} from '../../../src/core/time/index.ts';
import { at, edit, editLists, LENGTH, moments, ranges, span, spans } from '../../support/edit.ts';

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
  expect(spans(without(edit(list), edit(cut)))).toBe(left);
});

test('taking out a range without length cuts nothing', () => {
  expect(spans(without(edit('0-10'), [range(at(5), at(5))]))).toBe('0-10');
  expect(spans(without(edit('0-10'), [range(at(5), at(5)), range(at(7), at(8))]))).toBe('0-7 8-10');
});

test.each([
  ['0-4 6-20', '4-6', '0-20'],
  ['0-4 6-20', '5-5.5', '0-4 5-5.5 6-20'],
  ['0-4 6-20', '30-40', '0-4 6-20 30-40'],
  ['0-4 6-20', '1-2', '0-4 6-20'],
])('%s with %s put in is %s', (list, put, has) => {
  expect(spans(putBack(edit(list), span(put)))).toBe(has);
});

test('removing is keeping everything else', () => {
  fc.assert(
    fc.property(editLists, ranges, moments, (list, cut, moment) => {
      const left = without(list, [cut]);
      expect(sound(left)).toBe(true);
      expect(holds(left, moment)).toBe(holds(list, moment) && !contains(cut, moment));
      expect(runtime(left)).toBe(runtime(list) - runtime(within(list, cut)));
      expect(without(left, [cut])).toEqual(left);
    }),
  );
});

test('inserting is keeping that too, and undoes what removing took from the list', () => {
  fc.assert(
    fc.property(editLists, ranges, moments, (list, put, moment) => {
      const has = putBack(list, put);
      expect(sound(has)).toBe(true);
      expect(holds(has, moment)).toBe(holds(list, moment) || contains(put, moment));
      expect(within(list, put).reduce<EditList>(putBack, without(list, [put]))).toEqual(list);
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

test('the chapters of a recording share out its programme', () => {
  fc.assert(
    fc.property(editLists, fc.array(moments, { maxLength: 8 }), (list, marks) => {
      const edges = [ticks<'recording'>(0), ...marks.toSorted((a, b) => a - b), LENGTH];
      const parts = edges.slice(1).map((end, i) => within(list, range(edges[i] ?? end, end)));
      expect(parts.reduce((sum, part) => sum + runtime(part), 0)).toBe(runtime(list));
    }),
  );
});

const entry = (written: string, more: object = {}): EditEntry => ({ ...span(written), ...more });

test('an entry that is trimmed keeps its camera, and the text of the point that stays', () => {
  const list = [entry('0-10', { angle: 'side', inText: '0:00', outText: '0:10' })];
  expect(without(list, [span('4-6')])).toEqual([
    entry('0-4', { angle: 'side', inText: '0:00' }),
    entry('6-10', { angle: 'side', outText: '0:10' }),
  ]);
  expect(common(list, edit('0-10'))[0]).toBe(list[0]);
});

test('what is put back is shown by its neighbour’s camera, and makes one of two that it joins', () => {
  const list = [entry('0-4', { angle: 'side', inText: '0:00' }), entry('6-10', { angle: 'side', outText: '0:10' })];
  expect(putBack(list, span('4-6'))).toEqual([entry('0-10', { angle: 'side', inText: '0:00', outText: '0:10' })]);
  expect(putBack(list, span('5-6'))).toEqual([list[0], entry('5-10', { angle: 'side', outText: '0:10' })]);
});

test.each([
  ['what it follows', '6-8', 'side'],
  ['what it leads to, after a cut', '7-8', 'above'],
  ['the recording’s own camera, where it meets nothing', '7-7.5', undefined],
])('what is put back is shown by the camera of %s', (_, put, angle) => {
  const list = [
    entry('0-2', { angle: 'front' }),
    entry('4-6', { angle: 'side' }),
    entry('8-10', { angle: 'above' }),
    entry('12-14', { angle: 'front' }),
  ];
  expect(putBack(list, span(put)).find((kept) => contains(kept, span(put).start))?.angle).toBe(angle);
});

test('entries that a person wrote apart stay apart; those that come to meet in one camera join', () => {
  const list = [entry('0-5'), entry('5-10'), entry('10-15', { angle: 'side' })];
  expect(putBack(list, span('0-15'))).toEqual(list);
  expect(showBy(list, span('5-10'), 'side')).toEqual([entry('0-5'), entry('5-15', { angle: 'side' })]);
  expect(spans(showBy(list, span('3-7'), 'above'))).toBe('0-3 3-7 7-10 10-15');
});

test('of two entries that overlap, what they share belongs to the later one', () => {
  expect(spans(withoutOverlaps([entry('0-6'), entry('5-10')]))).toBe('0-5 5-10');
  expect(spans(withoutOverlaps([entry('0-9'), entry('3-6'), entry('5-10')]))).toBe('0-3 3-5 5-10');
});

test.each(['0-5 5-10', '0-4 6-10', '0-6 0-10', '5-10 0-6', '5-10 0-3'])('%s do not overlap so, and stay', (written) => {
  const list = written.split(' ').map((one) => entry(one));
  withoutOverlaps(list).forEach((kept, i) => {
    expect(kept).toBe(list[i]);
  });
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
