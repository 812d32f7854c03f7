import { expect, test } from 'vitest';
import { joinHeard } from '../../../src/core/media/index.ts';

/** Thousands of samples. */
const piece = (from: number, length: number, speech: readonly (readonly [number, number])[]) => ({
  from: from * 1000,
  length: length * 1000,
  speech: speech.map(([start, end]) => [start * 1000, end * 1000] as const),
});
const joined = (...pieces: ReturnType<typeof piece>[]) =>
  joinHeard(pieces).map(([start, end]) => [start / 1000, end / 1000]);

test('from the last stretch that both hear begin, the later piece is believed', () => {
  const first = piece(0, 100, [
    [10, 20],
    [75, 82],
    [90, 100],
  ]);
  // Counted from its own first sample, 70 of the whole. What it hears at once it hears wrongly; then within two windows.
  const second = piece(70, 130, [
    [0, 3],
    [5.5, 12],
    [20, 45],
    [60, 70],
  ]);
  expect(joined(first, second, piece(170, 10, []))).toEqual([
    [10, 20],
    [75, 82],
    [90, 115],
    [130, 140],
  ]);
  // Further apart they are two.
  expect(joined(piece(0, 100, [[90, 100]]), piece(70, 130, [[21.1, 45]]))).toEqual([
    [90, 100],
    [100, 115],
  ]);
});

test('where nothing is heard alike each is believed on its side of the seam', () => {
  const first = piece(0, 100, [[60, 100]]);
  expect(joined(first, piece(80, 100, [[7, 50]]))).toEqual([
    [60, 100],
    [100, 130],
  ]);
  expect(joined(first, piece(80, 100, [[7, 20]]))).toEqual([[60, 100]]);
  expect(joined(piece(0, 100, []), piece(80, 100, [[7, 50]]))).toEqual([[100, 130]]);
  expect(joined()).toEqual([]);
});
