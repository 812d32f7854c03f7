import { expect, test } from 'vitest';
import { neighbour, partAt, type TimedPart } from '../../../src/browser/player/lesson-data.ts';

const part = (id: string, start: number, end: number): TimedPart => ({ id, title: id, start, end });
// b was cut out; between c and d nothing is cued.
const parts = [part('a', 0, 10), part('b', 10, 10), part('c', 10, 20), part('d', 30, 40)];
const frame = 1 / 30;

test.each([
  [0, 'a'],
  [9.9, 'a'],
  [10, 'c'],
  // The player stands in the middle of the frame that holds the cue, which may be before the cue.
  [10 - frame / 2, 'c'],
  [10 - frame, 'a'],
  [25, 'c'],
  [30, 'd'],
  [99, 'd'],
])('at %d s it is %s', (seconds, id) => {
  expect(partAt(parts, seconds, frame)?.id).toBe(id);
});

test('before the first part it is none', () => {
  expect(partAt([part('a', 5, 10)], 1, frame)).toBeUndefined();
});

test.each([
  [12, 1, 'd'],
  [12, 0, 'c'],
  [12, -1, 'a'],
  [2, -1, undefined],
  [35, 1, undefined],
])('from %d s, %d places on is %s', (seconds, places, id) => {
  expect(neighbour(parts, seconds, frame, places)?.id).toBe(id);
});

test('before the first part, the next one is the first', () => {
  expect(neighbour([part('a', 5, 10)], 1, frame, 1)?.id).toBe('a');
});
