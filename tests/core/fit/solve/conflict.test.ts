import fc from 'fast-check';
import { expect, test } from 'vitest';
import { demandsOf } from '../../../../src/core/fit/plan/demands.ts';
import { layOut } from '../../../../src/core/fit/plan/layout.ts';
import type { Plan } from '../../../../src/core/fit/plan/plan.ts';
import { demandText } from '../../../../src/core/fit/plan/words.ts';
import { smallestConflict } from '../../../../src/core/fit/solve/conflict.ts';
import { possible } from '../../../../src/core/fit/solve/solve.ts';
import { waysOut } from '../../../../src/core/fit/solve/ways-out.ts';
import { block, plan, testSolver, way } from '../../../support/plans.ts';

const must = (
  id: string,
  minutes: number,
  more: Parameters<typeof block>[2] = {},
  extra: Parameters<typeof way>[2] = {},
) => block(id, [way(minutes * 60, 10, extra)], { must: true, ...more });
const screen = (id: string, minutes: number) =>
  must(id, minutes, { kind: 'screen' }, { screenSeconds: minutes * 60, seated: true });
const at = (minutes: number) => ({ window: { earliest: minutes * 60, latest: minutes * 60 } });
const hour = 3600;

// Classes start at 10:00. Each row: what was asked for, what cannot hold together, the best way out.
const impossible: readonly (readonly [name: string, plan: Plan, conflict: string, way: string])[] = [
  [
    'two blocks longer than the slot',
    plan(hour, [must('welcome', 5), must('chain', 40), must('brake', 30)]),
    'the class ends by 11:00; "chain" has to be given (at least 40 min); "brake" has to be given (at least 30 min)',
    'let the class end at 11:15, 15 min later',
  ],
  [
    'one block longer than the slot',
    plan(hour, [must('all of it', 90)]),
    'the class ends by 11:00; "all of it" has to be given (at least 90 min)',
    'let the class end at 11:30, 30 min later',
  ],
  [
    'only the buffer is too much',
    plan(hour, [must('chain', 55)], { bufferSeconds: 600 }),
    'the class ends by 11:00; 10 min stay free at the end; "chain" has to be given (at least 55 min)',
    'let the class end at 11:05, 5 min later',
  ],
  [
    'food at noon after too much',
    plan(4 * hour, [must('chain', 90), must('brake', 45), must('soup', 30, { kind: 'food', ...at(120) })]),
    '"chain" has to be given (at least 90 min); "brake" has to be given (at least 45 min); "soup" has to be given (at least 30 min); "soup" starts at 12:00',
    'start "soup" at 12:15',
  ],
  [
    'two fixed times in the wrong order',
    plan(4 * hour, [must('demo', 20, at(120)), must('tea', 10, at(60))]),
    '"demo" has to be given (at least 20 min); "demo" starts at 12:00; "tea" has to be given (at least 10 min); "tea" starts at 11:00',
    'start "tea" at 12:20',
  ],
  [
    'after what is written later',
    plan(hour, [must('torque', 10, { after: ['fit'] }), must('fit', 10)]),
    '"torque" has to be given (at least 10 min); "torque" comes after "fit"; "fit" has to be given (at least 10 min)',
    'write "torque" after "fit", or let the order go',
  ],
  [
    'needs something that does not fit',
    plan(hour, [must('rivet', 20, { needs: ['show'] }), block('show', [way(50 * 60, 10)])]),
    'the class ends by 11:00; "rivet" has to be given (at least 20 min); "rivet" is given only with "show"',
    'let the class end at 11:10, 10 min later',
  ],
  [
    'too long on screen at a stretch',
    plan(2 * hour, [screen('one', 25), screen('two', 20)], { limits: { breakSeconds: 300, screenSeconds: 1800 } }),
    '"one" has to be given (at least 25 min); "two" has to be given (at least 20 min); no longer than 30 min on screen without a break',
    'allow 45 min on screen without a break',
  ],
  [
    'not enough hands-on',
    plan(2 * hour, [screen('show', 60), must('do', 15, { kind: 'hands-on' })], {
      limits: { breakSeconds: 300, handsOnShare: 0.5 },
    }),
    '"show" has to be given (at least 60 min); at least 50 % of the class is hands-on',
    'accept 20 % hands-on',
  ],
  [
    'side by side, but in one bay',
    plan(hour, [must('wheel', 40, { bay: 'bay 1' }), must('brake', 35, { bay: 'bay 1', beside: 'wheel' })]),
    'the class ends by 11:00; "brake" has to be given (at least 35 min); "wheel" and "brake" share bay 1, so they follow one another',
    'give "wheel" and "brake" a bay each',
  ],
];

test.each(impossible)('%s', async (_, p, sentence, best) => {
  const solver = await testSolver();
  const conflict = smallestConflict(p, solver);
  expect(conflict?.demands.map((demand) => demandText(p, demand)).join('; ')).toBe(sentence);
  expect(conflict?.smallest).toBe(true);
  const ways = waysOut(p, conflict ?? { demands: [], smallest: false }, solver);
  expect(ways.filter(({ enough }) => enough).map(({ text }) => text)).toContain(best);
  expect(ways.map(({ enough }) => enough)).toEqual(
    ways.map(({ enough }) => enough).toSorted((a, b) => Number(b) - Number(a)),
  );
});

test('a plan that can be kept has no conflict', async () => {
  expect(smallestConflict(plan(hour, [must('chain', 55)]), await testSolver())).toBeUndefined();
});

test('every conflict is one, and falls apart without any of its demands; no smaller one exists', async () => {
  const solver = await testSolver();
  const plans = fc
    .array(
      fc.tuple(
        fc.integer({ min: 1, max: 30 }),
        fc.option(fc.integer({ min: 0, max: 60 }), { nil: undefined, freq: 2 }),
      ),
      {
        minLength: 1,
        maxLength: 5,
      },
    )
    .map((rows) =>
      plan(
        hour,
        rows.map(([minutes, when], i) => must(`b${i}`, minutes, when === undefined ? {} : at(when))),
      ),
    );
  fc.assert(
    fc.property(plans, (p) => {
      const conflict = smallestConflict(p, solver);
      const layout = layOut(p);
      const all = demandsOf(p, layout);
      if (!conflict) {
        expect(possible(p, layout, all, solver)).toBe(true);
        return;
      }
      const { demands } = conflict;
      expect(possible(p, layout, demands, solver)).toBe(false);
      for (const one of demands)
        expect(
          possible(
            p,
            layout,
            demands.filter((d) => d !== one),
            solver,
          ),
        ).toBe(true);
      if (demands.length > 3) return;
      // Small enough to try every smaller set.
      const smaller =
        demands.length === 3 ? all.flatMap((a, i) => all.slice(i + 1).map((b) => [a, b])) : all.map((a) => [a]);
      for (const set of smaller) expect(possible(p, layout, set, solver)).toBe(true);
    }),
    { numRuns: 25, seed: 3 },
  );
});
