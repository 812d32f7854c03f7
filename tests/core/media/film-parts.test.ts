import { expect, test } from 'vitest';
import { type DividePoint, planFilmParts, readLargest } from '../../../src/core/media/index.ts';
import { type Ticks, ticks } from '../../../src/core/time/index.ts';

const moment = (at: number): Ticks<'programme'> => ticks(at);
/** A place to divide at every ten ticks, ten bytes a tick; up to 100 ticks. */
const POINTS: DividePoint[] = Array.from({ length: 10 }, (_, i) => ({ at: moment(i * 10), bytes: i * 100 }));
const END: DividePoint = { at: moment(100), bytes: 1000 };

function parts(largest: number, chapters: readonly number[]): string {
  const plan = planFilmParts(POINTS, END, chapters.map(moment), largest);
  return plan.ok ? plan.value.map(({ start, end }) => `${start}-${end}`).join(' ') : `${plan.problem}: ${plan.help}`;
}

test.each([
  // Small enough: it stays as it is. A file may have exactly so much.
  [1000, [0, 30], '0-100'],
  [999, [0, 30], '0-30 30-100'],
  // The last chapter that fits, and the picture at or before its start: at 55, the one at 50.
  [600, [0, 20, 55, 90], '0-50 50-100'],
  // The chapter at 90 lies beyond what fits first; then it is not needed.
  [500, [0, 40, 90], '0-40 40-90 90-100'],
  // No chapter begins in what fits: as long as it can be.
  [300, [0, 90], '0-30 30-60 60-90 90-100'],
  [300, [], '0-30 30-60 60-90 90-100'],
  // Two chapters before one picture divide once.
  [400, [35, 38], '0-30 30-70 70-100'],
  [99, [50], 'a single run of its pictures takes 100 bytes, more than the 99 that a file may have: allow larger files'],
])('of at most %d bytes, chapters at %j: %s', (largest, chapters, expected) => {
  expect(parts(largest, chapters)).toBe(expected);
});

test('the largest file is as written; left out, that of FAT32', () => {
  // Microsoft, FAT32 File System Specification 1.03, 2000: DIR_FileSize is a 32-bit number of bytes.
  expect(readLargest(undefined)).toBe(4_294_967_295);
  expect(['700MB', '2 GiB', '1.5kB', '12', 'none'].map(readLargest)).toEqual([
    ...[700e6, 2 * 1024 ** 3, 1500, 12],
    Number.POSITIVE_INFINITY,
  ]);
  expect(['', '0', '-3', '4 GBit', 'large', '1e9', '0.2'].map(readLargest)).toEqual(Array(7).fill(undefined));
});
