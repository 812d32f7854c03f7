import { describe, expect, test } from 'vitest';
import { certain } from '../../../../src/core/fit/plan/estimate.ts';
import { leftOf, meanLeft } from '../../../../src/core/fit/risk/left-of.ts';

// A likely time at the least makes the beta distribution Beta(1, 5), with the density 5 (1 − x)⁴: T > x has the
// probability (1 − x)⁵. Given T > e, what is left is not longer than (1 − e)(1 − (1 − p)^(1/5)) with a probability of p,
// and (1 − e)/6 on average.
const estimate = { least: 100, likely: 100, most: 1100 };
const PROBABILITIES = [0.1, 0.5, 0.8, 0.95];

test.each([0, 40, 100])('of a block of 100 s and more all the rest is left after %d s', (elapsed) => {
  for (const p of PROBABILITIES)
    expect(leftOf(estimate, elapsed)(p)).toBeCloseTo(100 - elapsed + 1000 * (1 - (1 - p) ** 0.2), 1);
});

test.each([101, 300, 500, 550])(
  'after %d s what is left is that of the blocks that last at least so long',
  (elapsed) => {
    const rest = 1000 - (elapsed - 100);
    const left = leftOf(estimate, elapsed);
    for (const p of PROBABILITIES) expect(left(p)).toBeCloseTo(rest * (1 - (1 - p) ** 0.2), 1);
    expect(left(0)).toBeGreaterThanOrEqual(0);
    expect(Math.abs(meanLeft(estimate, elapsed) - rest / 6)).toBeLessThan(0.5);
  },
);

// 19 of 20 have ended after 1 − 0.05^(1/5) = 0.4507 of the width, 550.7 s.
describe('longer than 19 of 20 the estimate says nothing more', () => {
  test('the block may end at any moment, as what has no memory does, and goes on for a minute on average', () => {
    for (const elapsed of [551, 5000]) {
      const left = leftOf(estimate, elapsed);
      for (const p of PROBABILITIES) expect(left(p)).toBeCloseTo(-60 * Math.log(1 - p), 6);
    }
  });

  test('for a tenth of its mean, where that is more: (a + 4m + b)/6 = 2667 s', () => {
    const long = { least: 1000, likely: 1000, most: 11_000 };
    expect(leftOf(long, 6000)(0.5)).toBeCloseTo(266.667 * Math.LN2, 2);
  });

  test('and it ends some day', () => expect(leftOf(estimate, 600)(1)).toBeCloseTo(60 * 9 * Math.LN10, 6));
});

test('a certain time has its own rest, nothing at its end, and then may end at any moment', () => {
  expect(leftOf(certain(600), 200)(0.5)).toBe(400);
  expect(leftOf(certain(600), 600)(0.5)).toBe(0);
  expect(leftOf(certain(0), 0)(0.5)).toBe(0);
  expect(leftOf(certain(600), 601)(0.5)).toBeCloseTo(60 * Math.LN2, 6);
});
