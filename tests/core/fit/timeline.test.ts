import { expect, test } from 'vitest';
import { type Timeline, timelineText } from '../../../src/core/fit/timeline.ts';

const MINUTE = 60;
const bar = (id: string, start: number, end: number, lane = 0) => ({
  ...{ id, title: id, kind: 'talk', lane, label: id },
  start: start * MINUTE,
  end: end * MINUTE,
});

/** An hour from ten o'clock, a column a minute. */
function drawn(bars: Timeline['bars'], band: readonly [number, number], minutes = 60, slot = 60): string[] {
  const ticks = Array.from({ length: minutes / 15 + 1 }, (_, i) => ({ at: i * 15 * MINUTE, clock: `${i}:00` }));
  const timeline: Timeline = {
    ...{ bars, ticks, text: '', endClock: '11:00', axisSeconds: minutes * MINUTE, slotSeconds: slot * MINUTE },
    plannedSeconds: Math.max(...bars.map(({ end }) => end)),
    band: { from: band[0] * MINUTE, to: band[1] * MINUTE },
    lanes: 1 + Math.max(...bars.map(({ lane }) => lane)),
  };
  return timelineText(timeline, minutes);
}

test('what is free is dotted up to the end of the slot, and the span says what it is', () => {
  const [axis, lane, risk] = drawn([bar('a', 0, 20), bar('b', 20, 50)], [45, 55]);
  expect(axis).toBe('0:00           1:00           2:00           3:00           4:00');
  expect(lane).toBe(`${'A'.repeat(20)}${'B'.repeat(30)}..........|`);
  expect(risk).toBe(`${' '.repeat(12)}80 % of classes end in this span ${'~'.repeat(11)}`);
});

test('the end of the slot hides nothing of a block that crosses it, nor one a column wide just behind it', () => {
  const [axis, lane, risk] = drawn([bar('a', 0, 60), bar('b', 60, 61), bar('c', 61, 70)], [5, 62], 75);
  expect(lane).toBe(`${'A'.repeat(60)}|B${'C'.repeat(9)}`);
  expect(axis?.slice(60)).toBe('4:00            5:00');
  // Room for the words is behind the span here.
  expect(risk).toBe(`     ${'~'.repeat(59)} 80 % of classes end in this span`);
});

test('what runs at the same time has a line of its own, in the same columns behind the end', () => {
  const [, first, second] = drawn([bar('a', 0, 50), bar('b', 50, 65), bar('c', 55, 65, 1)], [60, 65], 75);
  expect(first).toBe(`${'A'.repeat(50)}${'B'.repeat(10)}|BBBBB`);
  expect(second).toBe(`${' '.repeat(55)}CCCCC CCCCC`);
});
