import { describe, expect, it } from 'vitest';
import { layOutSteps } from '../../../src/browser/page/lay-out-steps.ts';

/** A page as far as laying out its steps needs it. */
function page(count: number, hash = '') {
  const laidOut: number[] = [];
  const told: string[] = [];
  const steps = Array.from({ length: count }, (_, i) => ({
    classList: { add: () => laidOut.push(i) },
    querySelectorAll: () => [{ content: `fields ${i}`, replaceWith: (fields: string) => told.push(fields) }],
    dispatchEvent: ({ type, bubbles }: Event) => told.push(`${type} ${bubbles}`),
  }));
  const idle: (() => void)[] = [];
  const root = Object.assign(new EventTarget(), { querySelectorAll: () => steps });
  const stood: (() => void)[] = [];
  const view = Object.assign(new EventTarget(), { setTimeout: (done: () => void) => stood.push(done) });
  layOutSteps(root as unknown as Document, hash, view as unknown as Window, (next) => idle.push(next));
  const rests = () => stood.pop()?.();
  return { root, view, laidOut, told, idle, rests };
}

describe('laying out the steps of a lesson', () => {
  it('does three steps each time the browser has nothing to do, in their order, and then asks for no more', () => {
    const { laidOut, idle, rests } = page(8);
    expect([laidOut, idle]).toEqual([[], []]);
    rests();
    for (const seen of [3, 6, 8].map((count) => Array.from({ length: count }, (_, i) => i))) {
      expect(idle).toHaveLength(1);
      idle.pop()?.();
      expect(laidOut).toEqual(seen);
    }
    expect(idle).toEqual([]);
  });

  it('puts in the fields of each, and tells of it when they stand there', () => {
    const { told, idle, rests } = page(2);
    rests();
    expect(told).toEqual([]);
    idle.pop()?.();
    expect(told).toEqual(['fields 0', 'laid-out true', 'fields 1', 'laid-out true']);
  });

  it('begins when the reader scrolls, and then not once more when the page has stood for a while', () => {
    const { root, laidOut, idle, rests } = page(2);
    root.dispatchEvent(new Event('scroll'));
    idle.pop()?.();
    expect(laidOut).toEqual([0, 1]);
    root.dispatchEvent(new Event('scroll'));
    rests();
    expect(idle).toEqual([]);
  });

  it('does them all before the page is printed', () => {
    const { view, laidOut } = page(5);
    view.dispatchEvent(new Event('beforeprint'));
    expect(laidOut).toEqual([0, 1, 2, 3, 4]);
  });

  it('does them all before a link to one of them is followed', () => {
    const { laidOut, idle } = page(3, '#read-the-teeth');
    expect([laidOut, idle]).toEqual([[0, 1, 2], []]);
  });

  it.each(['click', 'keydown'])('does the rest when a %s may want one of them', (wanted) => {
    const { root, laidOut, idle, rests } = page(5);
    rests();
    idle.pop()?.();
    root.dispatchEvent(new Event(wanted));
    expect(laidOut).toEqual([0, 1, 2, 3, 4]);
    idle.pop()?.();
    expect([laidOut, idle]).toEqual([[0, 1, 2, 3, 4], []]);
  });
});
