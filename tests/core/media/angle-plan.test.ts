import { expect, test } from 'vitest';
import { angleFrames, anglesUsed, pictureRuns, usedOf } from '../../../src/core/media/index.ts';
import type { Recording } from '../../../src/core/model/index.ts';
import { FRAME_RATES, fromSeconds, range } from '../../../src/core/time/index.ts';
import { at } from '../../support/edit.ts';

const RATE = FRAME_RATES['25'];
const shot = (from: number, until: number, angle: string) => ({
  ...range(at(from / 25), at(until / 25)),
  angle,
  index: 0,
});
const run = (first: number, count: number, where = first) => ({ first, count, at: where });

test('the angles used are those shown and the one heard, as written', () => {
  const recording = {
    angles: [{ id: 'side' }, { id: 'spare' }, { id: 'bench' }],
    shots: [{ angle: 'bench' }, { angle: 'bench' }],
    written: { sound: 'side' },
  } as unknown as Recording;
  expect(anglesUsed(recording).map(({ id }) => id)).toEqual(['side', 'bench']);
});

test('kept runs are split where the camera changes, and stay in their place of the programme', () => {
  expect(pictureRuns([run(10, 40, 0), run(60, 20, 40)], [shot(20, 30, 'side'), shot(60, 90, 'top')], RATE)).toEqual([
    { first: 10, count: 10, at: 0 },
    { first: 20, count: 10, at: 10, angle: 'side' },
    { first: 30, count: 20, at: 20 },
    { first: 60, count: 20, at: 40, angle: 'top' },
  ]);
});

test('a change where a run begins or ends splits nothing; two angles may follow each other', () => {
  expect(pictureRuns([run(20, 20, 0)], [shot(0, 20, 'side'), shot(40, 50, 'side')], RATE)).toEqual([run(20, 20, 0)]);
  expect(pictureRuns([run(0, 20)], [shot(0, 10, 'side'), shot(10, 20, 'top')], RATE)).toEqual([
    { ...run(0, 10), angle: 'side' },
    { ...run(10, 10), angle: 'top' },
  ]);
});

test('a change between two frames goes to the nearest', () => {
  expect(pictureRuns([run(0, 20)], [shot(9.6, 20, 'side')], RATE).map(({ count }) => count)).toEqual([10, 10]);
  expect(pictureRuns([run(0, 20)], [shot(9.4, 20, 'side')], RATE).map(({ count }) => count)).toEqual([9, 11]);
});

test('an angle stands frame by frame beside the recording, as far as its file goes', () => {
  const angle = (offset: number, drift = 0) => ({ offset: fromSeconds<'recording'>(offset), drift });
  expect(angleFrames([run(0, 100)], { drift: 0 }, 100, RATE)).toEqual([{ first: 0, from: 0, count: 100 }]);
  // It began a second later, and holds 50 frames.
  expect(angleFrames([run(0, 100)], angle(1), 50, RATE)).toEqual([{ first: 25, from: 25, count: 50 }]);
  expect(angleFrames([run(30, 10), run(60, 40)], angle(1), 50, RATE)).toEqual([{ first: 25, from: 30, count: 45 }]);
  // It began earlier.
  expect(angleFrames([run(0, 10)], angle(-1), 30, RATE)).toEqual([{ first: -25, from: 0, count: 5 }]);
});

test('where its clock has run away by a frame, the next run leaves one out or shows one twice', () => {
  // 10 000 parts in a million: a frame in a hundred, first when half a frame has come together.
  const runs = (drift: number) => angleFrames([run(0, 120)], { drift }, 200, RATE);
  expect(runs(10_000)).toEqual([
    { first: 0, from: 0, count: 50 },
    { first: -1, from: 50, count: 70 },
  ]);
  expect(runs(-10_000).map(({ first }) => first)).toEqual([0, 1]);
});

test('frames used of a file are those of its own angle that lie in it', () => {
  const shown = [run(0, 10), { ...run(10, 20), angle: 'side' }, run(30, 10)];
  expect(usedOf({ from: 5, count: 30 }, shown)).toBe(5 + 5);
  expect(usedOf({ from: 5, count: 30, angle: 'side' }, shown)).toBe(20);
  expect(usedOf({ from: 15, count: 5, angle: 'side' }, shown)).toBe(5);
  expect(usedOf({ from: 100, count: 5 }, shown)).toBe(0);
});
