import secondNormalCdf from '@stdlib/stats-base-dists-normal-cdf';
import { expect, test } from 'vitest';
import { normalCdf } from '../../../../src/core/fit/risk/normal.ts';

// Second opinion: @stdlib/stats-base-dists-normal-cdf.
test('agrees with a library to 1e-12 of its value, in both tails and at the joint of its two ways', () => {
  const joint = [-3 - 1e-9, -3, -3 + 1e-9, 3 - 1e-9, 3, 3 + 1e-9];
  for (const z of [...Array.from({ length: 500 }, (_, i) => -20 + 0.08 * i), ...joint]) {
    const other = secondNormalCdf(z, 0, 1);
    const error = Math.abs(normalCdf(z) - other);
    if (!(error < 1e-12 * other)) expect.fail(`z = ${z}: ${normalCdf(z)} instead of ${other}`);
  }
});
