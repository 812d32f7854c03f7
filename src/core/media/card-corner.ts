import { CARD_CORNERS, type CardCorner } from '../model/index.ts';
import { must } from '../time/index.ts';
import { GRID } from './analyse-args.ts';
import { CHANGE } from './movement.ts';

/** Cells of the grid that a corner holds: as wide as a card may be, half as high as the picture. */
const WIDE = Math.ceil(GRID.columns / 3);
const HIGH = GRID.rows / 2;
/** A corner is calm where fewer of its cells change: noise, a blinking lamp. (Common practice, no source.) */
const FEWEST = 3;

/** For each corner, how many of its cells change while the pictures are shown. */
export type Movement = Readonly<Record<CardCorner, number>>;

const STILL: Movement = { 'top-left': 0, 'top-right': 0, 'bottom-left': 0, 'bottom-right': 0 };

/** @param frames grey cells, row by row, one picture after the other, `GRID.perSecond` of them a second */
export function movementInCorners(frames: Uint8Array): Movement {
  const size = GRID.columns * GRID.rows;
  const moved = new Uint8Array(size);
  for (let i = size; i < frames.length - (frames.length % size); i++)
    if (Math.abs(must(frames[i], 'a cell') - must(frames[i - size], 'a cell')) > CHANGE) moved[i % size] = 1;
  const sums = { ...STILL };
  for (const corner of CARD_CORNERS) {
    const [top, left] = [corner.startsWith('top'), corner.endsWith('left')];
    for (let y = top ? 0 : GRID.rows - HIGH; y < (top ? HIGH : GRID.rows); y++)
      for (let x = left ? 0 : GRID.columns - WIDE; x < (left ? WIDE : GRID.columns); x++)
        sums[corner] += must(moved[y * GRID.columns + x], 'a cell');
  }
  return sums;
}

/** Of pictures that follow each other. */
export function addMovement(parts: readonly Movement[]): Movement {
  const sums = { ...STILL };
  for (const part of parts) for (const corner of CARD_CORNERS) sums[corner] += part[corner];
  return sums;
}

/**
 * Where a card covers no hands: it stays in the corner it was in while nothing moves there, else goes to the first calm
 * one (the top before the bottom, where captions come), else to the one with the least movement.
 */
export function cornerFor(movement: Movement, before: CardCorner = 'top-left'): CardCorner {
  const order = [before, ...CARD_CORNERS.filter((corner) => corner !== before)];
  const calm = order.find((corner) => movement[corner] < FEWEST);
  return calm ?? order.reduce((least, corner) => (movement[corner] < movement[least] ? corner : least));
}
