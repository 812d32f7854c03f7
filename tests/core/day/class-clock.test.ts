import { expect, test } from 'vitest';
import { classTime, clockGap, firstAnchor } from '../../../src/core/day/class-clock.ts';

const TEN = Date.UTC(2027, 2, 6, 9);
const HOUR = 3_600_000;
const anchor = firstAnchor(TEN, { run: 'a', steady: 5000, wall: TEN + 4 * 60_000 });

test('a class that begins four minutes late is four minutes late', () => {
  expect(anchor.at).toBe(240);
});

test.each([
  ['as it should', 0],
  ['set forward by an hour', HOUR],
  ['set back by an hour', -HOUR],
  ['set to another year', 400 * 24 * HOUR],
])('twenty minutes on, with the wall clock %s, the class is twenty minutes on', (_, jump) => {
  expect(classTime(anchor, { run: 'a', steady: 6200, wall: TEN + 24 * 60_000 + jump })).toBe(240 + 1200);
});

test('after a dead battery the wall clock says how long the machine was off', () => {
  expect(classTime(anchor, { run: 'b', steady: 30, wall: TEN + 14 * 60_000 })).toBe(840);
  // Its own count may have passed the old one meanwhile.
  expect(classTime(anchor, { run: 'b', steady: 9000, wall: TEN + 14 * 60_000 })).toBe(840);
});

test('a clock that was set back while the machine was off shows no time before what is written down', () => {
  expect(classTime(anchor, { run: 'b', steady: 30, wall: TEN - HOUR })).toBe(240);
});

test('tried on another day, the clock of a class begins with it', () => {
  expect(firstAnchor(TEN, { run: 'a', steady: 10, wall: TEN - 90 * 24 * HOUR }).at).toBe(0);
  expect(firstAnchor(TEN, { run: 'a', steady: 10, wall: TEN - 10 * 60_000 }).at).toBe(-600);
});

test('a clock that went on by an hour more than its seconds were counted was set, or its machine slept', () => {
  const before = { run: 'a', steady: 100, wall: TEN };
  expect(clockGap(before, { run: 'a', steady: 110, wall: TEN + 10_000 })).toBe(0);
  expect(clockGap(before, { run: 'a', steady: 110, wall: TEN + 10_000 + HOUR })).toBe(3600);
  expect(clockGap(before, { run: 'b', steady: 0, wall: TEN + HOUR })).toBe(0);
});
