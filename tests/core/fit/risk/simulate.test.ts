import { expect, test } from 'vitest';
import type { Network } from '../../../../src/core/fit/risk/network.ts';
import { SAME_PERSON, sharedPeople, simulate } from '../../../../src/core/fit/risk/simulate.ts';

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
  const draws = 10_000;
  const { end } = simulate(network, draws, 7, 0);
  expect(Math.abs(average(end) - 608.225)).toBeLessThan(3 * Math.sqrt(spreadOf(end) / draws) + 0.5);
  for (const x of [0.3, 0.5, 0.6, 0.8, 0.9]) {
    const p = beta(x) ** 2;
    const share = end.filter((moment) => moment <= 1000 * x).length / draws;
    expect(Math.abs(share - p)).toBeLessThan(3 * Math.sqrt((p * (1 - p)) / draws) + 0.001);
  }
});

/** Beta(3, 3), in which nearly all shares lie within three standard errors. */
const DRAWS = 4000;
const within = (p: number) => 3 * Math.sqrt((p * (1 - p)) / DRAWS) + 0.001;
const share = (times: Float64Array | undefined, seconds: number) =>
  (times ?? new Float64Array()).filter((each) => each <= seconds).length / DRAWS;

test('how long a block takes does not depend on who else is given by the same person', () => {
  const cdf = (x: number) => 10 * x ** 3 - 15 * x ** 4 + 6 * x ** 5;
  const estimate = { least: 0, likely: 500, most: 1000 };
  const network: Network = [1, 2].map(() => ({ estimate, after: [], notBefore: 0, person: 'p' }));
  const { took } = simulate(network, DRAWS, 11);
  for (const times of took)
    for (const x of [0.2, 0.3, 0.5, 0.7, 0.8])
      expect(Math.abs(share(times, 1000 * x) - cdf(x))).toBeLessThan(within(cdf(x)));
});

// Beta(1, 5): its density is 5 (1 − x)⁴, so that T > e + x, given T > e, has the probability ((1 − e − x)/(1 − e))⁵.
test('of a block that has gone on for a while only the rest is drawn', () => {
  const estimate = { least: 100, likely: 100, most: 1100 };
  const { took, end } = simulate([{ estimate, after: [], notBefore: 0, elapsed: 300 }], DRAWS, 5);
  expect(took[0]).toEqual(end);
  for (const x of [0.05, 0.1, 0.2, 0.3]) {
    const p = 1 - ((0.8 - x) / 0.8) ** 5;
    expect(Math.abs(share(took[0], 1000 * x) - p)).toBeLessThan(within(p));
  }
});

test('only those share a pace who give two blocks whose time is uncertain', () => {
  const estimate = { least: 60, likely: 90, most: 200 };
  const activity = (person?: string, certain = false) => ({
    estimate: certain ? { least: 60, likely: 60, most: 60 } : estimate,
    after: [],
    notBefore: 0,
    ...(person !== undefined && { person }),
  });
  const shared = (...all: ReturnType<typeof activity>[]) => [...sharedPeople(all)];
  expect(shared(activity('p'), activity('q'), activity('p'), activity())).toEqual(['p']);
  expect(shared(activity('p'), activity('p', true))).toEqual([]);
  expect(shared(activity(), activity())).toEqual([]);
});

test.each([
  ['one person', ['p', 'p'], undefined, 0.5],
  ['one person, as asked', ['p', 'p'], 0.8, 0.8],
  ['two', ['p', 'q'], undefined, 0],
  ['nobody', [undefined, undefined], undefined, 0],
])('times of two blocks given by %s are correlated as said', (_, people, asked, expected) => {
  // A likely time in the middle: times are nearly normal, so that their correlation is nearly that of the paces.
  const estimate = { least: 0, likely: 500, most: 1000 };
  const network = people.map((person) => ({ estimate, after: [], notBefore: 0, person }));
  const [x, y] = simulate(network, DRAWS, 3, asked).took;
  if (!x || !y) throw new Error('two blocks have two times');
  const sum = x.map((each, draw) => each + (y[draw] ?? 0));
  // Var(x + y) = Var(x) + Var(y) + 2 Cov(x, y).
  const covariance = (spreadOf(sum) - spreadOf(x) - spreadOf(y)) / 2;
  const correlation = covariance / Math.sqrt(spreadOf(x) * spreadOf(y));
  // Three standard errors, 3 (1 − r²) / √n, and a hundredth for what is not quite normal.
  expect(Math.abs(correlation - expected)).toBeLessThan((3 * (1 - expected ** 2)) / Math.sqrt(DRAWS) + 0.01);
});

test('the correlation is the judgement that is written down', () => expect(SAME_PERSON).toBe(0.5));

test('an activity starts when the last of those it waits for has ended, and not before its own time', () => {
  const certain = (seconds: number) => ({ least: seconds, likely: seconds, most: seconds });
  const { starts, end, took } = simulate(
    [
      { estimate: certain(100), after: [], notBefore: 0 },
      { estimate: certain(300), after: [], notBefore: 50 },
      { estimate: certain(10), after: [0, 1], notBefore: 200 },
      { estimate: certain(5), after: [0], notBefore: 120 },
    ],
    2,
    1,
  );
  expect(starts.map(([first]) => first)).toEqual([0, 50, 350, 120]);
  expect(took.map(([, second]) => second)).toEqual([100, 300, 10, 5]);
  expect([...end]).toEqual([360, 360]);
});
