import { expect, test } from 'vitest';
import { solve } from '../../src/core/fit/solve/solve.ts';
import { block, plan, testSolver, way } from '../support/plans.ts';
import { published } from '../support/published.ts';
import copied from './knapsack.json' with { type: 'json' };

const reference = published(copied);

// P05 goes back to Martello and Toth. Minutes are the weights, worth the profits, the slot the capacity.
test.each(
  reference.values['J. Burkardt, KNAPSACK_01, Florida State University, instances P01 to P08 (edition not known)'],
)('$id: the published optimum and selection', async (instance) => {
  const { id, capacity, weights, profits, optimum, selection, weightUsed } = instance;
  const blocks = weights.map((weight, i) => block(`b${i}`, [way(weight, profits[i] ?? 0)]));
  const answer = solve(plan(capacity, blocks), await testSolver());
  if (typeof answer === 'string') throw new Error(answer);
  expect(answer.proof, id).toMatchObject({ worth: optimum, bound: optimum, gap: 0 });
  expect(answer.timetable.end).toBe(weightUsed);
  expect(answer.choice.map((given) => (given ? 1 : 0))).toEqual([...selection]);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
