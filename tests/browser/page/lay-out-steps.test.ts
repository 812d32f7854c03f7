import { describe, expect, it } from 'vitest';
import { layOutSteps } from '../../../src/browser/page/lay-out-steps.ts';

/** Steps as far as laying them out needs them. */
function page(count: number) {
  const laidOut: number[] = [];
  const steps = Array.from({ length: count }, (_, i) => ({ classList: { add: () => laidOut.push(i) } }));
  return { root: { querySelectorAll: () => steps } as unknown as ParentNode, laidOut };
}

describe('laying out the steps of a lesson', () => {
  it('does one step each time the browser has nothing to do, in their order, and then asks for no more', () => {
    const { root, laidOut } = page(3);
    const idle: (() => void)[] = [];
    layOutSteps(root, '', (next) => idle.push(next));
    expect(laidOut).toEqual([]);
    for (const seen of [[0], [0, 1], [0, 1, 2]]) {
      expect(idle).toHaveLength(1);
      idle.pop()?.();
      expect(laidOut).toEqual(seen);
    }
    expect(idle).toEqual([]);
  });

  it('does them all before a link to one of them is followed', () => {
    const { root, laidOut } = page(3);
    layOutSteps(root, '#read-the-teeth', () => expect.fail('nothing waits'));
    expect(laidOut).toEqual([0, 1, 2]);
  });

  it('asks for nothing twice where there is no step', () => {
    const { root, laidOut } = page(0);
    const idle: (() => void)[] = [];
    layOutSteps(root, '#', (next) => idle.push(next));
    idle.pop()?.();
    expect([laidOut, idle]).toEqual([[], []]);
  });
});
