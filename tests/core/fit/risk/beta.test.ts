import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { certain, mean, shape, variance } from '../../../../src/core/fit/plan/estimate.ts';
import { quantilesOf, tableOf } from '../../../../src/core/fit/risk/beta.ts';

const estimates = fc
  .tuple(
    fc.double({ min: 0, max: 100, noNaN: true }),
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.double({ min: 0.5, max: 100, noNaN: true }),
  )
  .map(([least, share, width]) => ({ least, likely: least + share * width, most: least + width }));

test('the quantiles of a beta distribution have the mean and variance of its three points', () => {
  fc.assert(
    fc.property(estimates, (estimate) => {
      const quantile = tableOf(estimate);
      const width = estimate.most - estimate.least;
      const points = Array.from({ length: 1000 }, (_, i) => quantile((i + 0.5) / 1000));
      const centre = points.reduce((sum, x) => sum + x, 0) / points.length;
      const spread = points.reduce((sum, x) => sum + (x - centre) ** 2, 0) / points.length;
      expect(Math.abs(centre - mean(estimate)) / width).toBeLessThan(1e-3);
      expect(Math.abs(spread - variance(estimate)) / width ** 2).toBeLessThan(1e-3);
    }),
    { numRuns: 20 },
  );
});

// Second opinion: @stdlib/stats-base-dists-beta-cdf and -beta-quantile.
test.each([
  [0, 0, 1],
  [0, 0.001, 1],
  [0, 0.05, 1],
  [0, 0.5, 1],
  [0, 0.98, 1],
  [0, 1, 1],
  [60, 61, 3600],
  [100, 101, 102],
])('quantiles of the times %d, %d, %d s agree with a library to 2e-6 in probability', (least, likely, most) => {
  const { alpha, beta } = shape({ least, likely, most });
  const quantile = tableOf({ least, likely, most });
  for (let p = 0.0005; p < 1; p += 0.0025) {
    const x = (quantile(p) - least) / (most - least);
    const other = betaCdf(x, alpha, beta);
    if (!(Math.abs(other - p) < 2e-6)) expect.fail(`at ${p} it is ${x}, of which the library says ${other}`);
  }
  const median = least + (most - least) * betaQuantile(0.5, alpha, beta);
  expect(Math.abs(quantile(0.5) - median) / (most - least)).toBeLessThan(2e-6);
});

test('it begins at the least time and ends with the most', () => {
  for (const likely of [60, 600, 3600]) {
    const quantile = tableOf({ least: 60, likely, most: 3600 });
    expect(quantile(0)).toBe(60);
    expect(quantile(1)).toBeCloseTo(3600, 2);
  }
});

test('a certain time is always itself', () => {
  expect([0.01, 0.3, 0.99].map(tableOf(certain(60)))).toEqual([60, 60, 60]);
});

test('an estimate asked for again is not worked out again, and not taken for another', () => {
  const asked = { least: 60, likely: 70, most: 100 };
  expect(quantilesOf({ ...asked })).toBe(quantilesOf(asked));
  for (const other of [{ least: 61 }, { likely: 71 }, { most: 101 }].map((more) => ({ ...asked, ...more }))) {
    expect(quantilesOf(other)(0.5)).toBe(tableOf(other)(0.5));
    expect(quantilesOf(other)(0.5)).not.toBe(quantilesOf(asked)(0.5));
  }
});
