import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ChangeSeen } from '../../../src/node/site/change-seen.ts';

describe('changes of content', () => {
  beforeEach(() => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] }));
  afterEach(() => void vi.useRealTimers());

  /** Each time at which the work was done, ms, when changes were seen at some. */
  function doneAt(changes: readonly number[], ended = Number.POSITIVE_INFINITY): number[] {
    const start = performance.now();
    const done: number[] = [];
    const change = new ChangeSeen(() => done.push(performance.now() - start));
    for (let ms = 0; ms < 5000; ms++) {
      if (changes.includes(ms)) change.seen();
      if (ms === ended) change.end();
      vi.advanceTimersByTime(1);
    }
    return done;
  }

  it('are answered at once where one comes by itself, and once for all that one save tells', () => {
    expect(doneAt([0])).toEqual([50]);
    expect(doneAt([0, 20, 60])).toEqual([110]);
    expect(doneAt([0, 3000])).toEqual([50, 3050]);
  });

  it('wait for quiet where they follow', () => {
    expect(doneAt([0, 200, 800, 1400])).toEqual([50, 2100]);
  });

  it('are one by itself again when it has been quiet for 700 ms', () => {
    expect(doneAt([0, 749])).toEqual([50, 1449]);
    expect(doneAt([0, 750])).toEqual([50, 800]);
  });

  it('are not answered when nobody is there any more', () => {
    expect(doneAt([0, 200], 300)).toEqual([50]);
  });
});
