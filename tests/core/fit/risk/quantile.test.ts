import { expect, test } from 'vitest';
import { at, quantile } from '../../../../src/core/fit/risk/quantile.ts';

// Hyndman and Fan, The American Statistician 50(4), 1996, definition 1: the inverse of the empirical distribution function,
// the least number of which so large a share is no greater. Of ten numbers each holds for a tenth.
test.each([
  [0, 1],
  [0.001, 1],
  [0.1, 1],
  [0.101, 2],
  [0.5, 5],
  [0.89, 9],
  [0.9, 9],
  [0.91, 10],
  [1, 10],
])('with a probability of %d ten numbers in a row do not exceed number %d', (probability, number) => {
  expect(quantile(Float64Array.of(10, 20, 30, 40, 50, 60, 70, 80, 90, 100), probability)).toBe(10 * number);
});

test('of no numbers there is none, instead of one that means something else', () => {
  expect(() => quantile(new Float64Array(), 0.5)).toThrow('a number of a row is missing');
  expect(() => at(Float64Array.of(1), 1)).toThrow('a number of a row is missing');
});
