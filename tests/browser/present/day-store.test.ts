import { beforeEach, expect, test } from 'vitest';
import type { AdviceOrder, Advised } from '../../../src/browser/present/answer-orders.ts';
import { DayStore } from '../../../src/browser/present/day-store.ts';
import type { Way } from '../../../src/core/day/index.ts';
import { sheetOf, talk } from '../../core/day/support.ts';

/** A worker that answers when it is told to, as one on a busy machine. */
class SlowWorker extends EventTarget {
  static last: SlowWorker;
  readonly orders: AdviceOrder[] = [];
  constructor() {
    super();
    SlowWorker.last = this;
  }
  postMessage(order: AdviceOrder): void {
    this.orders.push(order);
  }
  answer(text: string): void {
    const { number } = this.orders.at(-1) ?? { number: -1 };
    const way: Way = { text, changes: [], wins: 60, worthLost: 0, end: 0, chance: 1 };
    const data: Advised = { number, ways: [way], took: 5 };
    this.dispatchEvent(new MessageEvent('message', { data }));
  }
}

let moment = 0;
let store: DayStore;
const worker = () => SlowWorker.last;
const read = () => store.ways.value.map(({ text }) => text);
beforeEach(() => {
  moment = 0;
  const sheet = sheetOf([
    talk('a', [{ id: 'full', worth: 10, minutes: 5 }]),
    talk('b', [{ id: 'full', worth: 10, minutes: 5 }]),
  ]);
  store = new DayStore(sheet, [], {
    ticker: { now: () => moment, take: () => undefined },
    // As much of a worker as the store asks for.
    adviser: new SlowWorker() as unknown as Worker,
    keep: () => undefined,
  });
});

test('one look at a time: while it is under way others wait, and its answer is taken though time has gone on', () => {
  for (let seconds = 0; seconds < 600; seconds += 20) {
    moment = seconds;
    store.tick();
  }
  expect(worker().orders).toHaveLength(1);
  worker().answer('shorter');
  expect(read()).toEqual(['shorter']);
  // The one look that waited is at how things stand now.
  expect(worker().orders).toHaveLength(2);
  expect(worker().orders[1]?.at).toBe(580);
  worker().answer('shorter yet');
  expect(worker().orders).toHaveLength(2);
});

test('an answer about a class in which something has happened since is not taken', () => {
  worker().answer('first');
  worker().answer('second');
  store.act({ kind: 'begin' });
  const stale = new MessageEvent('message', { data: { number: 0, ways: [], took: 5 } });
  worker().dispatchEvent(stale);
  expect(read()).toEqual(['second']);
});
