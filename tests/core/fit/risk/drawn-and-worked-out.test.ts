import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layOut } from '../../../../src/core/fit/plan/layout.ts';
import type { Plan } from '../../../../src/core/fit/plan/plan.ts';
import { networkOf } from '../../../../src/core/fit/risk/network.ts';
import { simulate } from '../../../../src/core/fit/risk/simulate.ts';
import { endDistribution } from '../../../support/end-distribution.ts';
import { block, plan, way } from '../../../support/plans.ts';

const average = (values: Float64Array) => values.reduce((sum, x) => sum + x, 0) / values.length;

const minutes = fc.tuple(
  fc.integer({ min: 2, max: 20 }),
  fc.integer({ min: 0, max: 8 }),
  fc.integer({ min: 0, max: 15 }),
);
const classes: fc.Arbitrary<Plan> = fc
  .array(
    fc.record({ minutes, presenter: fc.constantFrom('p', 'q', undefined), beside: fc.boolean(), held: fc.boolean() }),
    { minLength: 2, maxLength: 12 },
  )
  .map((rows) => {
    let likely = 0;
    const blocks = rows.map(({ minutes: [least, more, most], presenter, beside, held }, i) => {
      const estimate = { least: least * 60, likely: (least + more) * 60, most: (least + more + most) * 60 };
      const follows = beside && i > 0;
      const at = likely;
      if (!follows) likely += estimate.likely;
      return block(`b${i}`, [way(0, 1, { estimate })], {
        must: true,
        ...(presenter && { presenter }),
        ...(follows ? { beside: `b${i - 1}` } : held && i > 0 ? { window: { earliest: at, latest: at + 3600 } } : {}),
      });
    });
    return plan(Math.round(likely * 1.06), blocks);
  });

test('worked out and drawn agree within three standard errors', () => {
  const draws = 20_000;
  fc.assert(
    fc.property(classes, (p) => {
      const layout = layOut(p);
      const choice = p.blocks.map((_, i) => ({ treatment: 0, group: layout.seats[i]?.[0] ?? 0 }));
      const worked = endDistribution(p, layout, choice);
      const { end } = simulate(networkOf(p, layout, choice).network, draws, 11);
      const deviation = Math.sqrt(worked.variance);
      // The grid is at most one step wide: a second, or a 1200th of all there is to vary.
      expect(Math.abs(average(end) - worked.mean)).toBeLessThan((3 * deviation) / Math.sqrt(draws) + 1.5);
      for (const share of [0.9, 1, 1.05]) {
        const moment = worked.mean * share;
        const chance = worked.chanceAfter(moment);
        const drawn = end.filter((m) => m > moment).length / draws;
        expect(Math.abs(drawn - chance)).toBeLessThan(3 * Math.sqrt((chance * (1 - chance)) / draws) + 0.002);
      }
    }),
    { numRuns: 10, seed: 5 },
  );
});

test('blocks of one presenter vary together: the spread grows, the mean stays', () => {
  const ways = [way(0, 1, { estimate: { least: 300, likely: 600, most: 1500 } })];
  const rows = ['a', 'b', 'c', 'd'].map((id) => block(id, ways, { must: true, presenter: 'p' }));
  const p = plan(3600, rows);
  const layout = layOut(p);
  const choice = rows.map((_, group) => ({ treatment: 0, group }));
  const [apart, together] = [0, 0.5].map((correlation) => endDistribution(p, layout, choice, correlation));
  expect(together?.mean).toBeCloseTo(apart?.mean ?? 0, 0);
  // Four equal blocks: var(sum) = 4 v (1 + 3 r); the pace's correlation is close to that of the times.
  const ratio = (together?.variance ?? 0) / (apart?.variance ?? 1);
  expect(ratio).toBeGreaterThan(2.3);
  expect(ratio).toBeLessThan(2.5);
});
