import fc from 'fast-check';
import {
  type EditList,
  editList,
  fromSeconds,
  type Range,
  range,
  type Ticks,
  ticks,
  toSeconds,
} from '../../src/core/time/index.ts';

/** A moment of the recording, in seconds. */
export const at = (seconds: number): Ticks<'recording'> => fromSeconds<'recording'>(seconds);

/** A moment of the programme, in seconds. */
export const shown = (seconds: number): Ticks<'programme'> => fromSeconds<'programme'>(seconds);

/** A recording range in seconds: `span('4-6')`. */
export function span(written: string): Range<'recording'> {
  const [start = Number.NaN, end = Number.NaN] = written.split('-').map(Number);
  return range(at(start), at(end));
}

/** An edit list in seconds: `edit('0-4 6-20')`; `edit('')` keeps nothing. */
export function edit(written: string): EditList {
  return editList(written.split(' ').filter(Boolean).map(span));
}

/** Ranges of either clock, in seconds, as `edit` reads them. */
export function spans(ranges: readonly { readonly start: number; readonly end: number }[]): string {
  return ranges.map(({ start, end }) => `${toSeconds(start)}-${toSeconds(end)}`).join(' ');
}

/** Four hours, the longest shop day in the tests. */
export const LENGTH = at(4 * 3600);

export const moments: fc.Arbitrary<Ticks<'recording'>> = fc
  .integer({ min: 0, max: LENGTH })
  .map((count) => ticks<'recording'>(count));

export const ranges: fc.Arbitrary<Range<'recording'>> = fc
  .tuple(moments, moments)
  .map(([a, b]) => (a < b ? range(a, b) : range(b, a)));

export const editLists: fc.Arbitrary<EditList> = fc.array(ranges, { maxLength: 12 }).map(editList);
