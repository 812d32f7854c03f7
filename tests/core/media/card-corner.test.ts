import { expect, test } from 'vitest';
import { addMovement, cornerFor, movementInCorners } from '../../../src/core/media/index.ts';

const [COLUMNS, ROWS] = [32, 18];

/** Pictures of one grey; from the second on, the cells given are brighter by so much in each other picture. */
function pictures(cells: readonly (readonly [x: number, y: number])[], by: number, count = 4): Uint8Array {
  const frames = new Uint8Array(COLUMNS * ROWS * count).fill(100);
  for (let at = 1; at < count; at += 2)
    for (const [x, y] of cells) frames[at * COLUMNS * ROWS + y * COLUMNS + x] = 100 + by;
  return frames;
}

test('a cell counts for the corner it lies in: a third of the width, half of the height; the middle for none', () => {
  expect(
    movementInCorners(
      pictures(
        [
          [0, 0],
          [10, 8],
          [11, 8],
          [20, 0],
        ],
        5,
      ),
    ),
  ).toEqual({
    'top-left': 2,
    'top-right': 0,
    'bottom-left': 0,
    'bottom-right': 0,
  });
  expect(
    movementInCorners(
      pictures(
        [
          [21, 8],
          [21, 9],
          [31, 17],
          [10, 9],
          [11, 9],
        ],
        5,
      ),
    ),
  ).toEqual({
    'top-left': 0,
    'top-right': 1,
    'bottom-left': 1,
    'bottom-right': 2,
  });
});

test('noise of four steps of 255 is no movement, and one picture alone has none', () => {
  expect(movementInCorners(pictures([[0, 0]], 4))['top-left']).toBe(0);
  expect(movementInCorners(pictures([[0, 0]], 5, 1))['top-left']).toBe(0);
});

test('a card stays where it was while at most two cells move there', () => {
  const movement = { 'top-left': 0, 'top-right': 2, 'bottom-left': 0, 'bottom-right': 0 };
  expect(cornerFor(movement, 'top-right')).toBe('top-right');
  expect(cornerFor({ ...movement, 'top-right': 3 }, 'top-right')).toBe('top-left');
  expect(cornerFor({ ...movement, 'top-left': 9 })).toBe('top-right');
  expect(cornerFor({ 'top-left': 9, 'top-right': 9, 'bottom-left': 0, 'bottom-right': 0 }, 'top-left')).toBe(
    'bottom-left',
  );
});

test('where everything moves it is the corner with least of it', () => {
  const part = { 'top-left': 9, 'top-right': 40, 'bottom-left': 7, 'bottom-right': 50 };
  expect(cornerFor(part, 'top-right')).toBe('bottom-left');
  expect(cornerFor(addMovement([part, { ...part, 'top-left': 4, 'bottom-left': 20 }]), 'top-right')).toBe('top-left');
});
