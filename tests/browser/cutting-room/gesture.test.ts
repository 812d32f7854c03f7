import { expect, test } from 'vitest';
import { columnsOf } from '../../../src/browser/cutting-room/strip/columns.ts';
import { drag, hitAt, IDLE, press } from '../../../src/browser/cutting-room/strip/gesture.ts';
import { numbersOf, placeLabels } from '../../../src/browser/cutting-room/strip/labels.ts';
import { type Passage, type Scale, wholeScale } from '../../../src/core/edit/index.ts';
import { at, open } from '../../core/edit/support.ts';

const { view } = open();
const [WIDTH, HEIGHT] = [460, 600];
const columns = columnsOf(WIDTH, false, false);
// Half an hour on 600 lines: three seconds a line.
const scale = wholeScale(view.length, HEIGHT);
const labels = placeLabels({ passages: view.passages, scale, height: HEIGHT, chosen: undefined });
const hit = (x: number, y: number) =>
  hitAt({ scale, width: WIDTH, thumbs: false, spoken: false, kept: view.kept, labels }, x, y);
const inSound = columns.sound.x + 5;

test('what lies under the pointer: the whole recording, an edge, a label, otherwise time', () => {
  expect(hit(5, 300)).toEqual({ on: 'whole' });
  // The sample keeps 0:00:10 to 0:05:00 and 0:06:00 to 0:30:00: lines 3.3, 100, 120 and 600.
  expect(hit(inSound, 103)).toMatchObject({ on: 'edge', edge: { entry: 0, point: 'out' } });
  expect(hit(inSound, 117)).toMatchObject({ on: 'edge', edge: { entry: 1, point: 'in' } });
  expect(hit(inSound, 110)).toEqual({ on: 'time' });
  const bolts = labels.find(({ id }) => id === 'open-the-two-bolts');
  expect(hit(columns.labels.x, (bolts?.line ?? 0) + 10)).toEqual({ on: 'label', id: 'open-the-two-bolts' });
  expect(hit(columns.labels.x, 590)).toEqual({ on: 'time' });
});

test('of two edges in reach the nearer one is taken', () => {
  const far: Scale = { top: 0, ticksPerLine: at(8) };
  const over = (y: number) =>
    hitAt({ scale: far, width: WIDTH, thumbs: false, spoken: false, kept: view.kept, labels: [] }, inSound, y);
  // 0:05:00 and 0:06:00 are lines 37.5 and 45.
  expect(over(40)).toMatchObject({ edge: { point: 'out' } });
  expect(over(42.5)).toMatchObject({ edge: { point: 'in' } });
});

test('press, tremble, drag, release: a tremble is no drag, and nothing moves without a press', () => {
  const edge = hit(inSound, 100);
  expect(drag(IDLE, 50, 50)).toEqual(IDLE);
  const down = press(edge, inSound, 100);
  expect(down.state).toBe('pressed');
  expect(drag(down, inSound + 2, 102)).toEqual(down);
  const dragged = drag(down, inSound, 104);
  expect(dragged).toEqual({ state: 'dragging', hit: edge, y: 104 });
  // Once it is a drag it stays one, also back where it began, and keeps hold of what was pressed.
  expect(drag(dragged, columns.labels.x, 100)).toEqual({ state: 'dragging', hit: edge, y: 100 });
});

const [first] = view.passages;
const passage = (n: number, kind: Passage['kind'], seconds: number): Passage => {
  if (!first?.cue) throw new Error('the sample has lost its first cue');
  return { ...first, id: `p${n}`, kind, cue: { ...first.cue, at: at(seconds) } };
};

test('labels never cover one another: pushed apart where all have room, otherwise beside their own cues', () => {
  const apart = (lines: readonly number[]) => lines.every((line, i) => i === 0 || line - (lines[i - 1] ?? 0) >= 31.99);
  const close = Array.from({ length: 10 }, (_, n) => passage(n, 'step', 100 + n));
  const few = placeLabels({ passages: close, scale, height: HEIGHT, chosen: undefined });
  expect(few.length).toBe(10);
  expect(apart(few.map(({ line }) => line))).toBe(true);

  const many = Array.from({ length: 300 }, (_, n) => passage(n, n % 50 === 7 ? 'chapter' : 'step', n * 6));
  const some = placeLabels({ passages: many, scale, height: HEIGHT, chosen: 'p130' });
  expect(apart(some.map(({ line }) => line))).toBe(true);
  expect(some.every(({ line, cueLine }) => Math.abs(line - cueLine) <= 16)).toBe(true);
  // The chosen one and every chapter, from the first to the last quarter of the recording.
  const ids = some.map(({ id }) => id);
  expect(ids).toEqual(expect.arrayContaining(['p130', 'p7', 'p57', 'p107', 'p157', 'p207', 'p257']));
  expect(some.length).toBeGreaterThan(15);
});

test('chapters are numbered 1, 2, 3, the steps of the second 2.1, 2.2', () => {
  expect([...numbersOf(view.passages).values()]).toEqual(['1', '1.1', '1.2', '2', '2.1', '2.2', '3', '3.1']);
});

test('a press on the words of a wide strip goes to their time, beside them to the label', () => {
  const line = labels[0]?.line ?? 0;
  const seen = { scale, width: 600, thumbs: false, spoken: true, kept: view.kept, labels };
  const wide = (x: number) => hitAt(seen, x, line);
  const { words, labels: column } = columnsOf(600, false, true);
  expect(words.w).toBeGreaterThan(100);
  expect(words.x + words.w).toBeLessThan(column.x);
  expect(wide(words.x + 20).on).toBe('time');
  expect(wide(column.x + 20).on).toBe('label');
  // A narrow strip keeps its room for the labels.
  expect(columnsOf(390, false, true).words.w).toBe(0);
});
