import fc from 'fast-check';
import { expect, test } from 'vitest';
import { demandsOf, keeps } from '../../../../src/core/fit/plan/demands.ts';
import { layOut, timetable } from '../../../../src/core/fit/plan/layout.ts';
import type { Choice, Given, Plan } from '../../../../src/core/fit/plan/plan.ts';
import { solve, worthOf } from '../../../../src/core/fit/solve/solve.ts';
import { block, plan, testSolver, way } from '../../../support/plans.ts';

const ids = ['a', 'b', 'c', 'd', 'e'];

const blocks = fc.integer({ min: 1, max: 5 }).chain((count) => {
  const names = ids.slice(0, count);
  const someone = fc.constantFrom(...names);
  const maybe = <T>(value: fc.Arbitrary<T>, weight = 3) => fc.option(value, { nil: undefined, freq: weight });
  const others = fc.oneof(
    { weight: 4, arbitrary: fc.constant([]) },
    { weight: 1, arbitrary: fc.array(someone, { minLength: 1, maxLength: 1 }) },
  );
  return fc.tuple(
    ...names.map((id) =>
      fc
        .record({
          kind: fc.constantFrom('talk' as const, 'screen' as const, 'break' as const, 'hands-on' as const),
          must: fc.boolean(),
          after: others,
          before: others,
          needs: others,
          together: others,
          window: maybe(fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 20 })), 3),
          presenter: maybe(fc.constantFrom('p', 'q'), 1),
          bay: maybe(fc.constantFrom('x'), 3),
          beside: maybe(someone, 3),
          anywhere: fc.oneof({ weight: 4, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) }),
          ways: fc.array(
            fc.record({
              seconds: fc.integer({ min: 0, max: 20 }),
              worth: fc.integer({ min: 0, max: 9 }),
              screen: fc.boolean(),
              seated: fc.boolean(),
            }),
            { minLength: 1, maxLength: 2 },
          ),
        })
        .map(({ ways, window, presenter, bay, beside, ...more }) =>
          block(
            id,
            ways.map((w) =>
              way(w.seconds, w.worth, { screenSeconds: w.screen ? w.seconds : 0, seated: w.screen || w.seated }),
            ),
            {
              ...more,
              ...(window && { window: { earliest: window[0], latest: window[0] + window[1] } }),
              ...(presenter && { presenter }),
              ...(bay && { bay }),
              ...(beside && beside !== id && { beside }),
            },
          ),
        ),
    ),
  );
});

const plans: fc.Arbitrary<Plan> = fc
  .record({
    slot: fc.integer({ min: 5, max: 70 }),
    bufferSeconds: fc.constantFrom(0, 0, 5),
    screen: fc.option(fc.integer({ min: 5, max: 40 }), { nil: undefined, freq: 1 }),
    seated: fc.option(fc.integer({ min: 5, max: 40 }), { nil: undefined, freq: 1 }),
    share: fc.option(fc.constantFrom(0.2, 0.33, 0.5), { nil: undefined, freq: 1 }),
    blocks,
  })
  .map(({ slot, bufferSeconds, screen, seated, share, blocks }) =>
    plan(slot, blocks, {
      bufferSeconds,
      limits: {
        breakSeconds: 6,
        ...(screen !== undefined && { screenSeconds: screen }),
        ...(seated !== undefined && { seatedSeconds: seated }),
        ...(share !== undefined && { handsOnShare: share }),
      },
    }),
  );

/** Tries every choice there is; what is left is compared by worth, then end. */
function everyChoice(p: Plan): { worth: number; end: number } | undefined {
  const layout = layOut(p);
  const demands = demandsOf(p, layout);
  let best: { worth: number; end: number } | undefined;
  const leaders = new Map(layout.groups.flatMap(({ leader, lanes }) => lanes.flat().map((b) => [b, leader] as const)));
  const walk = (choice: (Given | undefined)[]): void => {
    if (choice.length < p.blocks.length) {
      walk([...choice, undefined]);
      for (const group of layout.seats[choice.length] ?? [])
        p.blocks[choice.length]?.treatments.forEach((_, treatment) => {
          walk([...choice, { group, treatment }]);
        });
      return;
    }
    // A block beside another is given only with it.
    if (choice.some((pick, b) => pick && !choice[leaders.get(b) ?? b])) return;
    if (!demands.every((demand) => keeps(p, layout, choice as Choice, demand))) return;
    const worth = worthOf(p, choice);
    const { end } = timetable(p, layout, choice);
    if (!best || worth > best.worth || (worth === best.worth && end < best.end)) best = { worth, end };
  };
  walk([]);
  return best;
}

test('the plan found is the one that trying everything finds', async () => {
  const solver = await testSolver();
  let feasible = 0;
  fc.assert(
    fc.property(plans, (p) => {
      const best = everyChoice(p);
      const answer = solve(p, solver);
      const found = typeof answer === 'string' ? undefined : { worth: answer.proof.worth, end: answer.timetable.end };
      expect(found).toEqual(best);
      if (typeof answer === 'string') return;
      feasible++;
      expect(answer.proof).toMatchObject({ bound: answer.proof.worth, gap: 0 });
    }),
    { numRuns: 2000, seed: 20261205 },
  );
  // Guards against a generator that makes only plans without an answer.
  expect(feasible).toBeGreaterThan(500);
});
