import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layOut } from '../../../../src/core/fit/plan/layout.ts';
import type { Plan } from '../../../../src/core/fit/plan/plan.ts';
import { type Network, networkOf } from '../../../../src/core/fit/risk/network.ts';
import { riskOf } from '../../../../src/core/fit/risk/risk.ts';
import { simulate } from '../../../../src/core/fit/risk/simulate.ts';
import { endDistribution } from '../../../support/end-distribution.ts';
import { block, plan, way } from '../../../support/plans.ts';

const average = (values: Float64Array) => values.reduce((sum, x) => sum + x, 0) / values.length;
const spreadOf = (values: Float64Array) => {
  const centre = average(values);
  return values.reduce((sum, x) => sum + (x - centre) ** 2, 0) / values.length;
};

// Beta(3, 3), which a likely time in the middle gives: I_x(3, 3) = 10x³ − 15x⁴ + 6x⁵ (NIST DLMF, 8.17(i)), and the later
// of two independent ones has its square, with mean 1 − ∫ I² = 0.608225 by integrating the polynomial.
test('two blocks side by side end as the later of two beta times does', () => {
  const beta = (x: number) => 10 * x ** 3 - 15 * x ** 4 + 6 * x ** 5;
  const estimate = { least: 0, likely: 500, most: 1000 };
  const network: Network = [1, 2].map(() => ({ estimate, after: [], notBefore: 0 }));
  const draws = 50_000;
  const { end } = simulate(network, draws, 7, 0);
  expect(Math.abs(average(end) - 608.225)).toBeLessThan(3 * Math.sqrt(spreadOf(end) / draws) + 0.5);
  for (const x of [0.3, 0.5, 0.6, 0.8, 0.9]) {
    const p = beta(x) ** 2;
    const share = end.filter((moment) => moment <= 1000 * x).length / draws;
    expect(Math.abs(share - p)).toBeLessThan(3 * Math.sqrt((p * (1 - p)) / draws) + 0.001);
  }
});

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
    { numRuns: 20, seed: 5 },
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

test('the same plan has the same risk; certain times have none', () => {
  const p = plan(1200, [block('a', [way(600, 1)], { must: true }), block('b', [way(500, 1)], { must: true })]);
  const layout = layOut(p);
  const choice = [
    { treatment: 0, group: 0 },
    { treatment: 0, group: 1 },
  ];
  const risk = riskOf(p, layout, choice);
  expect(risk).toMatchObject({ overrunProbability: 0, bufferFor90: 0, causes: [] });
  expect(risk.latestStart).toEqual([100, 700]);
  expect(riskOf({ ...p, slotSeconds: 1000 }, layout, choice).overrunProbability).toBe(1);
});

test('food at a fixed time has its own latest moment, and what stands before it has to be in time for it', () => {
  const p = plan(3600, [
    block('talk', [way(600, 1)], { must: true }),
    block('food', [way(600, 1)], { must: true, window: { earliest: 900, latest: 1200 } }),
    block('hands', [way(900, 1)], { must: true }),
  ]);
  const layout = layOut(p);
  const choice = p.blocks.map((_, group) => ({ treatment: 0, group }));
  const risk = riskOf(p, layout, choice);
  expect(risk.latestStart).toEqual([600, 1200, 2700]);
  expect(risk.lateStart).toEqual([{ block: 1, probability: 0 }]);
});
