import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { FileFacts } from '../../../src/core/model/index.ts';
import { Hub, type News } from '../../../src/node/server/hub.ts';
import { SettledFacts } from '../../../src/node/server/settled-facts.ts';

let heard: News[];
let known: Map<string, FileFacts>;
let reads: number;
let facts: SettledFacts;
beforeEach(() => {
  vi.useFakeTimers();
  heard = [];
  known = new Map([['media/a.mp4', { state: 'missing' }]]);
  reads = 0;
  const hub = new Hub();
  hub.listen((news) => heard.push(news));
  facts = new SettledFacts(hub, async () => {
    reads++;
    return new Map(known);
  });
});
afterEach(() => vi.useRealTimers());

test('a file that is being copied is looked at once it rests, and told once', async () => {
  for (let i = 0; i < 5; i++) {
    facts.note();
    await vi.advanceTimersByTimeAsync(500);
  }
  expect([reads, heard.length]).toEqual([0, 0]);
  known.set('media/a.mp4', { state: 'media', media: { duration: 1 } });
  await vi.advanceTimersByTimeAsync(1000);
  expect(heard).toEqual([{ kind: 'facts', facts: { 'media/a.mp4': { state: 'media', media: { duration: 1 } } } }]);
  facts.note();
  await vi.advanceTimersByTimeAsync(1000);
  expect([reads, heard.length]).toEqual([2, 1]);
});

test('nothing is told after the end', async () => {
  facts.note();
  facts.stop();
  await vi.advanceTimersByTimeAsync(5000);
  expect(reads).toBe(0);
});
