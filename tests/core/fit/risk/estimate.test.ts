import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import secondNormalCdf from '@stdlib/stats-base-dists-normal-cdf';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { certain, fromMinutes, mean, shape, variance } from '../../../../src/core/fit/plan/estimate.ts';
import { quantilesOf } from '../../../../src/core/fit/risk/beta.ts';
import { normalCdf } from '../../../../src/core/fit/risk/normal.ts';

// Second opinion: @stdlib/stats-base-dists-normal-cdf.
test('the normal distribution agrees with a library to 1e-12 of its value, in both tails and at the joint', () => {
  for (let z = -20; z <= 20; z += 0.01) {
    const other = secondNormalCdf(z, 0, 1);
    expect(Math.abs(normalCdf(z) - other), `z = ${z}`).toBeLessThan(1e-12 * other);
  }
});

const estimates = fc
  .tuple(
    fc.double({ min: 0, max: 100, noNaN: true }),
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.double({ min: 0.5, max: 100, noNaN: true }),
  )
  .map(([least, share, width]) => ({ least, likely: least + share * width, most: least + width }));

test('the quantiles of a beta distribution has the mean and variance of its three points', () => {
  fc.assert(
    fc.property(estimates, (estimate) => {
      const quantile = quantilesOf(estimate);
      const width = estimate.most - estimate.least;
      const points = Array.from({ length: 4000 }, (_, i) => quantile((i + 0.5) / 4000));
      const centre = points.reduce((sum, x) => sum + x, 0) / points.length;
      const spread = points.reduce((sum, x) => sum + (x - centre) ** 2, 0) / points.length;
      expect(Math.abs(centre - mean(estimate)) / width).toBeLessThan(1e-3);
      expect(Math.abs(spread - variance(estimate)) / width ** 2).toBeLessThan(1e-3);
    }),
    { numRuns: 50 },
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
  const quantile = quantilesOf({ least, likely, most });
  for (let p = 0.0005; p < 1; p += 0.0005) {
    const x = (quantile(p) - least) / (most - least);
    expect(Math.abs(betaCdf(x, alpha, beta) - p)).toBeLessThan(2e-6);
  }
  const median = least + (most - least) * betaQuantile(0.5, alpha, beta);
  expect(Math.abs(quantile(0.5) - median) / (most - least)).toBeLessThan(2e-6);
});

test('a certain time is always itself, and minutes are read as seconds', () => {
  expect([0.01, 0.3, 0.99].map(quantilesOf(certain(60)))).toEqual([60, 60, 60]);
  expect(fromMinutes([3, 4, 6])).toEqual({ least: 180, likely: 240, most: 360 });
});
