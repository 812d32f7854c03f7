import { expect, test } from 'vitest';
import { layOut } from '../../../../src/core/fit/plan/layout.ts';
import type { PlanBlock } from '../../../../src/core/fit/plan/plan.ts';
import { networkOf } from '../../../../src/core/fit/risk/network.ts';
import { SAME_PERSON, sharedPeople, simulate } from '../../../../src/core/fit/risk/simulate.ts';
import { block, plan, way } from '../../../support/plans.ts';

/** Each activity as "block: what it waits for, not before when, by whom". */
function net(rows: readonly PlanBlock[], given: readonly boolean[] = rows.map(() => true)): string[] {
  const p = plan(9000, rows);
  const layout = layOut(p);
  const choice = rows.map((_, index) =>
    given[index] ? { treatment: 0, group: layout.seats[index]?.[0] ?? 0 } : undefined,
  );
  const { network, blocks } = networkOf(p, layout, choice);
  return network.map(
    ({ after, notBefore, person }, i) =>
      `${p.blocks[blocks[i] ?? 0]?.id}: ${after.join()} ${notBefore}${person === undefined ? '' : ` ${person}`}`,
  );
}
const one = (id: string, seconds: number, more: Partial<PlanBlock> = {}) =>
  block(id, [way(seconds, 1)], { must: true, ...more });
const at = (earliest: number) => ({ window: { earliest, latest: 9000 } });

test('blocks in a row wait for one another; one that is not given is not there', () => {
  const rows = [one('a', 60), one('b', 60, { presenter: 'p' }), one('c', 60)];
  expect(net(rows)).toEqual(['a:  0', 'b: 0 0 p', 'c: 1 0']);
  expect(net(rows, [true, false, true])).toEqual(['a:  0', 'c: 0 0']);
  expect(net(rows, [false, false, true])).toEqual(['c:  0']);
});

test('blocks side by side wait for the same, and what follows waits for the last of each lane', () => {
  const rows = [
    one('a', 60),
    one('b', 100),
    one('c', 50, { beside: 'b', presenter: 'p' }),
    one('d', 40, { beside: 'b', presenter: 'p' }),
    one('e', 60),
  ];
  expect(net(rows)).toEqual(['a:  0', 'b: 0 0', 'c: 0 0 p', 'd: 2 0 p', 'e: 1,3 0']);
  expect(net(rows, [true, false, true, true, true])).toEqual(['a:  0', 'c: 0 0 p', 'd: 1 0 p', 'e: 2 0']);
});

test('a fixed time in any lane holds the whole group back, by as much as the blocks before it in its lane leave', () => {
  const rows = [
    one('b', 100),
    one('c', 50, { beside: 'b', presenter: 'p' }),
    one('d', 40, { beside: 'b', presenter: 'p', ...at(300) }),
    one('e', 60, at(700)),
  ];
  expect(net(rows)).toEqual(['b:  250', 'c:  250 p', 'd: 1 0 p', 'e: 0,2 700']);
  expect(net(rows, [true, false, true, true])).toEqual(['b:  300', 'd:  300 p', 'e: 0,1 700']);
  expect(net([one('a', 60, at(0)), one('b', 60)])).toEqual(['a:  0', 'b: 0 0']);
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

test('two blocks of one person are correlated as said, those of two are not', () => {
  const DRAWS = 20_000;
  // A likely time in the middle: times are nearly normal, so that their correlation is nearly that of the paces.
  const estimate = { least: 0, likely: 500, most: 1000 };
  const correlation = (people: readonly string[], wanted?: number) => {
    const network = people.map((person) => ({ estimate, after: [], notBefore: 0, person }));
    const { took } = simulate(network, DRAWS, 3, wanted);
    const [x, y] = [took[0] as Float64Array, took[1] as Float64Array];
    const centre = (of: Float64Array) => of.reduce((sum, each) => sum + each, 0) / DRAWS;
    const [a, b] = [centre(x), centre(y)];
    const sum = (f: (i: number) => number) => Array.from({ length: DRAWS }, (_, i) => f(i)).reduce((s, v) => s + v, 0);
    return (
      sum((i) => ((x[i] ?? 0) - a) * ((y[i] ?? 0) - b)) /
      Math.sqrt(sum((i) => ((x[i] ?? 0) - a) ** 2) * sum((i) => ((y[i] ?? 0) - b) ** 2))
    );
  };
  expect(SAME_PERSON).toBe(0.5);
  // Three standard errors, 3 (1 − r²) / √n, and a hundredth for what is not quite normal.
  expect(Math.abs(correlation(['p', 'p']) - 0.5)).toBeLessThan(0.026);
  expect(Math.abs(correlation(['p', 'p'], 0.8) - 0.8)).toBeLessThan(0.02);
  expect(Math.abs(correlation(['p', 'q']))).toBeLessThan(0.03);
});

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
