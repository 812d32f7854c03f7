import { expect, test } from 'vitest';
import { type Constraint, solve as yalps } from 'yalps';
import { demandsOf, keeps } from '../../src/core/fit/plan/demands.ts';
import { layOut } from '../../src/core/fit/plan/layout.ts';
import type { Given, Plan } from '../../src/core/fit/plan/plan.ts';
import { slotModel } from '../../src/core/fit/solve/slot-model.ts';
import { solve, worthOf } from '../../src/core/fit/solve/solve.ts';
import { block, plan, testSolver, way } from '../support/plans.ts';

const KINDS = ['screen', 'live', 'hands-on', 'talk', 'questions', 'break'] as const;

/** A made-up class of many blocks, each with four treatments, and every kind of demand. */
function large(count: number, seed: number, slotMinutes: number): Plan {
  let state = seed;
  const random = (below: number) => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return Math.floor((state / 2147483648) * below);
  };
  const blocks = Array.from({ length: count }, (_, i) => {
    const kind = KINDS[random(KINDS.length)] ?? 'talk';
    const minutes = 4 + random(17);
    const worth = 20 + random(61);
    const ways = [1, 0.75, 0.5, 0.25].map((share) => {
      const seconds = Math.max(1, Math.round(minutes * share)) * 60;
      return way(seconds, Math.round(worth * (0.4 + 0.6 * share)), {
        screenSeconds: kind === 'screen' ? seconds : 0,
        seated: kind === 'screen' || kind === 'talk',
      });
    });
    return block(`b${i}`, ways, {
      kind,
      must: i % 15 === 0,
      presenter: i % 2 === 0 ? 'p' : 'q',
      ...(i % 13 === 5 && { beside: `b${i - 1}` }),
      ...(i === Math.floor(count / 2) && { window: { earliest: slotMinutes * 30, latest: slotMinutes * 30 + 900 } }),
      ...(i > 5 && i % 7 === 0 && { needs: [`b${i - 3}`] }),
      ...(i % 11 === 4 && { after: [`b${i - 2}`] }),
      ...(i % 17 === 8 && { together: [`b${i - 1}`] }),
      anywhere: i === 20,
    });
  });
  return plan(slotMinutes * 60, blocks, {
    bufferSeconds: 600,
    limits: { breakSeconds: 300, screenSeconds: 2400, seatedSeconds: 3000, handsOnShare: 0.25 },
  });
}

/** The same model by a second solver, worth alone. */
function bySecondSolver(p: Plan): number {
  const layout = layOut(p);
  const { model, worth } = slotModel(p, layout, demandsOf(p, layout));
  const variables = model.variables.map((_, v) => [String(v), new Map<string, number>()] as const);
  const constraints = new Map<string, Constraint>();
  const limit = (name: string, min: number, max: number) =>
    constraints.set(name, { ...(Number.isFinite(min) && { min }), ...(Number.isFinite(max) && { max }) });
  model.rows.forEach(({ terms, min, max }, row) => {
    limit(`r${row}`, min, max);
    for (const [v, factor] of terms) variables[v]?.[1].set(`r${row}`, factor);
  });
  model.variables.forEach(({ min, max, whole }, v) => {
    if (whole) return;
    limit(`v${v}`, min, max);
    variables[v]?.[1].set(`v${v}`, 1);
  });
  for (const [v, factor] of worth) variables[v]?.[1].set('worth', factor);
  const binaries = model.variables.flatMap(({ whole }, v) => (whole ? [String(v)] : []));
  const answer = yalps(
    { direction: 'maximize', objective: 'worth', constraints, variables, binaries },
    { timeout: 5_000, tolerance: 0 },
  );
  return Math.round(answer.result);
}

/** Every choice there is, worst first thing anybody would write. */
function byTryingEverything(p: Plan): number {
  const layout = layOut(p);
  const demands = demandsOf(p, layout);
  let best = -1;
  const walk = (choice: (Given | undefined)[]): void => {
    const index = choice.length;
    if (index === p.blocks.length) {
      const worth = worthOf(p, choice);
      if (worth > best && demands.every((demand) => keeps(p, layout, choice, demand))) best = worth;
      return;
    }
    walk([...choice, undefined]);
    for (const group of layout.seats[index] ?? [])
      p.blocks[index]?.treatments.forEach((_, treatment) => {
        walk([...choice, { group, treatment }]);
      });
  };
  walk([]);
  return best;
}

test('60 blocks with 4 treatments and every kind of demand, a day of eight hours', async ({ bench }) => {
  const solver = await testSolver();
  const p = large(60, 7, 480);
  const answer = solve(p, solver);
  if (typeof answer === 'string') throw new Error(answer);
  expect(answer.proof.gap).toBe(0);
  await bench('HiGHS, proven', () => void solve(p, solver)).run({ time: 100, iterations: 3 });
}, 600_000);

test('20 blocks: beside a second solver', async ({ bench }) => {
  const solver = await testSolver();
  const p = large(20, 7, 160);
  await bench.compare(
    bench('HiGHS, proven', () => void solve(p, solver)),
    bench('second solver, worth only', () => void bySecondSolver(p)),
    { time: 100, iterations: 2, warmupIterations: 0, warmupTime: 0 },
  );
}, 600_000);

test('8 blocks: beside trying everything', async ({ bench }) => {
  const solver = await testSolver();
  const whole = large(8, 3, 60);
  const p = { ...whole, bufferSeconds: 0, blocks: whole.blocks.map((b) => ({ ...b, anywhere: false })) };
  const answer = solve(p, solver);
  const tried = byTryingEverything(p);
  expect(typeof answer === 'string' ? -1 : answer.proof.worth).toBe(tried);
  expect(bySecondSolver(p)).toBe(tried);
  await bench.compare(
    bench('HiGHS, proven', () => void solve(p, solver)),
    bench('second solver, worth only', () => void bySecondSolver(p)),
    bench('trying everything', () => void byTryingEverything(p)),
    { time: 100, iterations: 2, warmupIterations: 0, warmupTime: 0 },
  );
}, 600_000);
