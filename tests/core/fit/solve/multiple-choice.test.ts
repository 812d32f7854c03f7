import { expect, test } from 'vitest';
import { solve } from '../../../../src/core/fit/solve/solve.ts';
import { block, plan, testSolver, way } from '../../../support/plans.ts';

type Ways = readonly (readonly [seconds: number, worth: number])[];

// Invented. A way with no time and no worth is leaving out; the first has three best combinations, two of them shortest.
const INSTANCES: readonly { readonly capacity: number; readonly blocks: readonly Ways[] }[] = [
  {
    capacity: 100,
    blocks: [
      [
        [0, 0],
        [20, 30],
        [35, 45],
      ],
      [
        [10, 12],
        [25, 40],
        [40, 55],
      ],
      [
        [0, 0],
        [30, 35],
      ],
      [
        [5, 4],
        [15, 18],
        [30, 34],
      ],
    ],
  },
  {
    capacity: 120,
    blocks: [
      [
        [5, 3],
        [10, 5],
      ],
      [
        [0, 0],
        [12, 20],
        [25, 34],
        [40, 42],
      ],
      [
        [0, 0],
        [15, 22],
        [30, 37],
      ],
      [
        [0, 0],
        [20, 25],
        [45, 48],
      ],
      [
        [10, 15],
        [20, 21],
      ],
      [
        [5, 8],
        [15, 14],
      ],
    ],
  },
];

/** Every combination that fits, by trying them all. */
function combinations(capacity: number, blocks: readonly Ways[]) {
  let all: { choice: number[]; seconds: number; worth: number }[] = [{ choice: [], seconds: 0, worth: 0 }];
  for (const ways of blocks)
    all = all.flatMap(({ choice, seconds, worth }) =>
      ways.map(([more, gain], i) => ({ choice: [...choice, i], seconds: seconds + more, worth: worth + gain })),
    );
  return all.filter(({ seconds }) => seconds <= capacity);
}

test.each(INSTANCES)(
  'of $capacity seconds the best combination, of several the shortest, always the same',
  async ({ capacity, blocks }) => {
    const fitting = combinations(capacity, blocks);
    const optimum = Math.max(...fitting.map(({ worth }) => worth));
    const best = fitting.filter(({ worth }) => worth === optimum);
    const least = Math.min(...best.map(({ seconds }) => seconds));
    const rows = blocks.map((ways, i) =>
      block(
        `b${i}`,
        ways.map(([seconds, worth]) => way(seconds, worth)),
        { must: true },
      ),
    );
    const solver = await testSolver();
    const answers = [1, 2, 3].map(() => solve(plan(capacity, rows), solver));
    for (const answer of answers) {
      if (typeof answer === 'string') throw new Error(answer);
      expect(answer.proof).toMatchObject({ worth: optimum, bound: optimum, gap: 0 });
      const shortest = best.filter(({ seconds }) => seconds === least).map(({ choice }) => choice);
      expect(shortest).toContainEqual(answer.choice.map((given) => given?.treatment));
      expect(answer).toEqual(answers[0]);
    }
  },
);
