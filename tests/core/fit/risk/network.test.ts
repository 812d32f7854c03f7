import { expect, test } from 'vitest';
import { layOut } from '../../../../src/core/fit/plan/layout.ts';
import type { PlanBlock } from '../../../../src/core/fit/plan/plan.ts';
import { networkOf } from '../../../../src/core/fit/risk/network.ts';
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
