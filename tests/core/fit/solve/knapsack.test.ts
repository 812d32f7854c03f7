import { expect, test } from 'vitest';
import { solve } from '../../../../src/core/fit/solve/solve.ts';
import reference from '../../../reference/planning.json' with { type: 'json' };
import { block, plan, testSolver, way } from '../../../support/plans.ts';

// P01 to P08: data set KNAPSACK_01, J. Burkardt, Florida State University (P05 from Martello and Toth);
// R-adagio-1: R package adagio. Minutes are their weights, worth their profits, the slot their capacity.
test.each(Object.entries(reference.knapsack01))('%s: the published optimum and selection', async (_, instance) => {
  const { capacity, weights, profits, optimum, selection, weightUsed } = instance;
  const blocks = weights.map((weight, i) => block(`b${i}`, [way(weight, profits[i] ?? 0)]));
  const answer = solve(plan(capacity, blocks), await testSolver());
  if (typeof answer === 'string') throw new Error(answer);
  expect(answer.proof).toMatchObject({ worth: optimum, bound: optimum, gap: 0 });
  expect(answer.timetable.end).toBe(weightUsed);
  expect(answer.choice.map((given) => (given ? 1 : 0))).toEqual(selection);
});

// Two multiple-choice instances; optimum by trying every combination. A class with weight 0 and value 0 is leaving out.
test.each(Object.entries(reference.multipleChoiceKnapsack))(
  '%s: one of the best combinations, always the same',
  async (_, instance) => {
    const { capacity, classes, optimum, solutions } = instance;
    const blocks = classes.map((ways, i) =>
      block(
        `b${i}`,
        ways.map(({ weight, value }) => way(weight, value)),
        { must: true },
      ),
    );
    const solver = await testSolver();
    const answers = [1, 2, 3].map(() => solve(plan(capacity, blocks), solver));
    for (const answer of answers) {
      if (typeof answer === 'string') throw new Error(answer);
      expect(answer.proof).toMatchObject({ worth: optimum, bound: optimum, gap: 0 });
      const choice = answer.choice.map((given) => given?.treatment);
      // Of several best ones the earliest end counts, then the order written.
      const least = Math.min(...solutions.map(({ weight }) => weight));
      expect(solutions.filter(({ weight }) => weight === least).map((s) => s.choice)).toContainEqual(choice);
      expect(answer).toEqual(answers[0]);
    }
  },
);
