import fc from 'fast-check';
import { expect, test } from 'vitest';
import { certain, fromMinutes, mean, ruleOfThumbVariance, variance } from '../../../../src/core/fit/plan/estimate.ts';
import { distributionOf } from '../../../../src/core/fit/risk/beta.ts';
import { normalCdf, normalQuantile } from '../../../../src/core/fit/risk/normal.ts';
import reference from '../../../reference/planning.json' with { type: 'json' };

const fraction = (text: string) => {
  const [over = 0, under = 1] = text.split('/').map(Number);
  return over / under;
};
const examples = Object.entries(reference.pert);

// Worked textbook examples of the three-point estimate; means and variances as printed there.
test.each(examples)('%s: mean and variance of every activity, and of the critical path', (_, example) => {
  const of = (a: { a: number; m: number; b: number }) => ({ least: a.a, likely: a.m, most: a.b });
  for (const activity of example.activities) {
    expect(mean(of(activity))).toBeCloseTo(fraction(activity.mean), 12);
    expect(ruleOfThumbVariance(of(activity))).toBeCloseTo(fraction(activity.variance), 12);
  }
  const path = example.activities.filter(({ id }) => example.criticalPath.includes(id)).map(of);
  const centre = path.reduce((sum, e) => sum + mean(e), 0);
  const spread = path.reduce((sum, e) => sum + ruleOfThumbVariance(e), 0);
  expect(centre).toBeCloseTo(fraction(example.mean), 12);
  expect(spread).toBeCloseTo(fraction(example.variance), 12);
  for (const { by, p } of example.probabilities) expect(normalCdf((by - centre) / Math.sqrt(spread))).toBeCloseTo(p, 3);
});

// Values of the standard normal distribution function, six digits.
test.each(reference.normalCdf)('the normal distribution at $z is $p', ({ z, p }) => {
  expect(normalCdf(z)).toBeCloseTo(p, 5);
  expect(normalQuantile(p)).toBeCloseTo(z, 3);
});

const estimates = fc
  .tuple(
    fc.double({ min: 0, max: 100, noNaN: true }),
    fc.double({ min: 0, max: 1, noNaN: true }),
    fc.double({ min: 0.5, max: 100, noNaN: true }),
  )
  .map(([least, share, width]) => ({ least, likely: least + share * width, most: least + width }));

test('the table of a beta distribution has the mean and variance of its three points', () => {
  fc.assert(
    fc.property(estimates, (estimate) => {
      const { quantile } = distributionOf(estimate);
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

test('quantile and cdf undo each other, and a certain time is a step', () => {
  fc.assert(
    fc.property(estimates, fc.double({ min: 0.001, max: 0.999, noNaN: true }), (estimate, p) => {
      const { cdf, quantile } = distributionOf(estimate);
      expect(cdf(quantile(p))).toBeCloseTo(p, 6);
    }),
  );
  const step = distributionOf(certain(60));
  expect([step.cdf(59.9), step.cdf(60), step.quantile(0.3)]).toEqual([0, 1, 60]);
  expect(fromMinutes([3, 4, 6])).toEqual({ least: 180, likely: 240, most: 360 });
});
