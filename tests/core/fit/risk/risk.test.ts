import { describe, expect, test } from 'vitest';
import { layOut } from '../../../../src/core/fit/plan/layout.ts';
import type { PlanBlock } from '../../../../src/core/fit/plan/plan.ts';
import { riskOf } from '../../../../src/core/fit/risk/risk.ts';
import { block, plan, way } from '../../../support/plans.ts';

// A likely time in the middle makes the beta distribution Beta(3, 3), whose distribution function is a polynomial:
// I_x(3, 3) = 10x³ − 15x⁴ + 6x⁵ (NIST DLMF, 8.17). What a class of one or two such blocks does is known exactly.
const cdf = (x: number) => (x <= 0 ? 0 : x >= 1 ? 1 : 10 * x ** 3 - 15 * x ** 4 + 6 * x ** 5);
function quantile(p: number): number {
  let [low, high] = [0, 1];
  for (let n = 0; n < 60; n++) {
    const middle = (low + high) / 2;
    if (cdf(middle) < p) low = middle;
    else high = middle;
  }
  return low;
}
/** Three standard errors of a share counted in 20 000 draws, and of a quantile of 1000 s, s. */
const SHARE = 3 * Math.sqrt(0.25 / 20_000);
const QUANTILE = 7;

const beta = (from: number, width: number) =>
  way(0, 1, { estimate: { least: from, likely: from + width / 2, most: from + width } });
const sure = (seconds: number) => way(seconds, 1);
const must = (id: string, treatment: ReturnType<typeof way>, more: Partial<PlanBlock> = {}) =>
  block(id, [treatment], { must: true, ...more });

function risk(slot: number, ...rows: PlanBlock[]) {
  const p = plan(slot, rows);
  const layout = layOut(p);
  const group = (index: number) => layout.seats[index]?.[0] ?? 0;
  return riskOf(
    p,
    layout,
    rows.map((_, index) => ({ treatment: 0, group: group(index) })),
  );
}

describe('one block of 0 to 1000 s', () => {
  test.each([300, 500, 700, 900])('overruns a slot of %d s as often as its distribution says', (slot) => {
    const { overrunProbability } = risk(slot, must('a', beta(0, 1000)));
    expect(Math.abs(overrunProbability - (1 - cdf(slot / 1000)))).toBeLessThan(SHARE);
  });

  test('ends by each named moment with that probability', () => {
    const { end, bufferFor90 } = risk(2000, must('a', beta(0, 1000)));
    for (const [name, p] of [
      ['p10', 0.1],
      ['p50', 0.5],
      ['p80', 0.8],
      ['p90', 0.9],
      ['p95', 0.95],
    ] as const)
      expect(Math.abs(end[name] - 1000 * quantile(p)), name).toBeLessThan(QUANTILE);
    // It is planned with its mean, 500 s.
    expect(bufferFor90).toBeCloseTo(end.p90 - 500, 6);
  });

  test('the latest start leaves it time with 90 %', () => {
    const { latestStart } = risk(2000, must('a', beta(0, 1000)));
    expect(Math.abs((latestStart[0] ?? 0) - (2000 - 1000 * quantile(0.9)))).toBeLessThan(QUANTILE);
  });

  test('the latest start is never after a fixed moment of its own', () => {
    const latest = (at: number) =>
      risk(2000, must('a', beta(0, 1000), { window: { earliest: 0, latest: at } })).latestStart[0];
    expect(latest(100)).toBe(100);
    expect(Math.abs((latest(1999) ?? 0) - (2000 - 1000 * quantile(0.9)))).toBeLessThan(QUANTILE);
  });
});

test('a class that ends with its slot does not overrun; one that ends a second after always does', () => {
  expect(risk(600, must('a', sure(600))).overrunProbability).toBe(0);
  expect(risk(599, must('a', sure(600))).overrunProbability).toBe(1);
});

test('a certain class has no need of a buffer', () => {
  const { bufferFor90, overrunProbability, causes } = risk(600, must('a', sure(600)));
  expect([bufferFor90, overrunProbability, causes]).toEqual([0, 0, []]);
});

describe('latest starts count back from what follows', () => {
  test('of certain blocks in a row', () =>
    expect(risk(3000, must('a', sure(500)), must('b', sure(700)), must('c', sure(900))).latestStart).toEqual([
      900, 1400, 2100,
    ]));

  test('the longer of two lanes side by side counts for what comes before them', () => {
    const rows = [must('a', sure(500)), must('b', sure(700)), must('c', sure(900), { beside: 'b' })];
    expect(risk(3000, ...rows).latestStart).toEqual([1600, 2300, 2100]);
  });

  test('the longer lane counts, whichever comes first', () => {
    const rows = [
      must('a', sure(500)),
      must('b', sure(900)),
      must('c', sure(700), { beside: 'b' }),
      must('d', sure(300)),
    ];
    expect(risk(3000, ...rows).latestStart).toEqual([1300, 1800, 2000, 2700]);
  });

  test('a block that is not given has none, and what is given does not wait for it', () => {
    const rows = [must('a', sure(500)), block('b', [sure(700)]), must('c', sure(900))];
    const p = plan(3000, rows);
    const layout = layOut(p);
    const seat = (index: number) => layout.seats[index]?.[0] ?? 0;
    const choice = [{ treatment: 0, group: seat(0) }, undefined, { treatment: 0, group: seat(2) }];
    expect(riskOf(p, layout, choice).latestStart).toEqual([1600, undefined, 2100]);
  });

  test('of two uncertain ones in a row the first needs the 90 % of both together, not of each', () => {
    // The sum of two Beta(3, 3): its distribution function by summing over a fine grid.
    const steps = 2000;
    const both = (x: number) => {
      let sum = 0;
      for (let i = 0; i < steps; i++) {
        const mass = cdf((i + 1) / steps) - cdf(i / steps);
        sum += mass * cdf(x - (i + 0.5) / steps);
      }
      return sum;
    };
    let [low, high] = [0, 2];
    for (let n = 0; n < 40; n++)
      [low, high] = both((low + high) / 2) < 0.9 ? [(low + high) / 2, high] : [low, (low + high) / 2];
    const { latestStart } = risk(4000, must('a', beta(0, 1000)), must('b', beta(0, 1000)));
    expect(Math.abs((latestStart[0] ?? 0) - (4000 - 1000 * low))).toBeLessThan(QUANTILE + 3);
    expect(2 * quantile(0.9) - low).toBeGreaterThan(0.1);
  });

  test('a block before a fixed time has to be in time for it, and what follows that no more counts', () => {
    const rows = [
      must('a', sure(500)),
      must('food', sure(600), { window: { earliest: 1000, latest: 1200 } }),
      must('b', sure(700)),
    ];
    expect(risk(3000, ...rows).latestStart).toEqual([700, 1200, 2300]);
  });

  test('so has one in the same lane, and what comes before both', () => {
    const shown = { beside: 'x', presenter: 'p' };
    const rows = [
      must('before', sure(100)),
      must('x', sure(2000)),
      must('a', sure(500), shown),
      must('b', sure(300), { ...shown, window: { earliest: 500, latest: 1000 } }),
      must('after', sure(50)),
    ];
    expect(risk(4000, ...rows).latestStart).toEqual([400, 1950, 500, 1000, 3950]);
  });

  test('the uncertain one before a fixed time needs its own 90 %', () => {
    const rows = [must('a', beta(0, 1000)), must('food', sure(600), { window: { earliest: 1000, latest: 1200 } })];
    const [first] = risk(4000, ...rows).latestStart;
    expect(Math.abs((first ?? 0) - (1200 - 1000 * quantile(0.9)))).toBeLessThan(QUANTILE);
  });
});

describe('a block with a fixed time', () => {
  test.each([400, 600, 800])('starts after %d s as often as what comes before it lasts longer', (latest) => {
    const rows = [must('a', beta(0, 1000)), must('b', sure(60), { window: { earliest: 0, latest } })];
    const { lateStart } = risk(4000, ...rows);
    expect(lateStart).toHaveLength(1);
    expect(lateStart[0]?.block).toBe(1);
    expect(Math.abs((lateStart[0]?.probability ?? 0) - (1 - cdf(latest / 1000)))).toBeLessThan(SHARE);
  });

  test('that is met to the second is not late', () => {
    const rows = [must('a', sure(600)), must('b', sure(60), { window: { earliest: 0, latest: 600 } })];
    expect(risk(4000, ...rows).lateStart).toEqual([{ block: 1, probability: 0 }]);
    const late = [must('a', sure(601)), must('b', sure(60), { window: { earliest: 0, latest: 600 } })];
    expect(risk(4000, ...late).lateStart).toEqual([{ block: 1, probability: 1 }]);
  });
});

describe('causes', () => {
  // In a class that overruns a slot of its mean, Beta(3, 3) is longer by its mean deviation, 5/32 of its width.
  test.each([
    [92, 0],
    [100, 1],
  ])('fifteen seconds more are told: a block of 600 ± %d/2 s', (width, count) => {
    const { causes } = risk(600, must('a', beta(600 - width / 2, width)));
    expect(causes).toHaveLength(count);
    for (const { extraSeconds, share } of causes) {
      expect(Math.abs(extraSeconds - (5 / 32) * width)).toBeLessThan(0.5);
      expect(share).toBeCloseTo(1, 9);
    }
  });

  test('the greatest share comes first, the shares of all are one, and what is certain causes nothing', () => {
    const rows = [must('a', beta(400, 400)), must('b', sure(600)), must('c', beta(300, 600))];
    const { causes } = risk(1800, ...rows);
    expect(causes.map((cause) => cause.block)).toEqual([2, 0]);
    expect(causes.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    expect(causes[0]?.share).toBeGreaterThan(0.6);
  });

  test('and comes first where it comes first in class too', () => {
    const { causes } = risk(1200, must('a', beta(300, 600)), must('b', beta(400, 400)));
    expect(causes.map((cause) => cause.block)).toEqual([0, 1]);
  });

  test('a class that never overruns has none', () => expect(risk(5000, must('a', beta(0, 1000))).causes).toEqual([]));
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
