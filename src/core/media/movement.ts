import { must } from '../time/index.ts';
import { GRID, type Stretch } from './analyse-args.ts';

const CELLS = GRID.columns * GRID.rows;

/** Movement is told for so long at a time, s: a clock burnt into the picture then changes in each of them. */
const WINDOW = 2;
/** A cell moves where it changes by more than this, of 255: more than a camera's noise does in so large a cell. */
export const CHANGE = 4;
/** What moves for more of the recording than this is no work: a clock, a counter, a fan. (Common practice, no source.) */
const ALWAYS = 0.5;
/** Cells that move at least: half a per cent of the picture, less than a hand covers. (Common practice, no source.) */
const FEWEST = 3;

/**
 * Where nothing moves in the picture. Cells that change all the time do not count, nor does what changes once and is
 * still before and after: a digit of a clock, a lamp that is switched on.
 *
 * @param frames grey cells, row by row, one picture after the other, `GRID.perSecond` of them a second
 * @param length of the picture, s
 * @returns s from the first picture
 */
export function findStill(frames: Uint8Array, length: number): Stretch[] {
  const count = Math.floor(frames.length / CELLS);
  const windows = Math.ceil((count - 1) / (WINDOW * GRID.perSecond));
  if (windows < 1) return length > 0 ? [[0, length]] : [];
  const moved = movedIn(frames, count, windows);
  const moving = Array.from({ length: windows }, (_, window) => moved(window) >= FEWEST);
  const still: Stretch[] = [];
  for (let window = 0; window < windows; window++) {
    if (moving[window] && (moving[window - 1] || moving[window + 1])) continue;
    const [start, end] = [window * WINDOW, window === windows - 1 ? length : (window + 1) * WINDOW];
    const last = still.at(-1);
    if (last && last[1] === start) still[still.length - 1] = [last[0], end];
    else still.push([start, end]);
  }
  return still;
}

/** How many cells move in a window, without those that always do. */
function movedIn(frames: Uint8Array, count: number, windows: number): (window: number) => number {
  const moves = new Uint8Array(windows * CELLS);
  for (let at = 1; at < count; at++) {
    const window = Math.floor((at - 1) / (WINDOW * GRID.perSecond)) * CELLS;
    for (let cell = 0; cell < CELLS; cell++)
      if (
        Math.abs(must(frames[at * CELLS + cell], 'a cell') - must(frames[(at - 1) * CELLS + cell], 'a cell')) > CHANGE
      )
        moves[window + cell] = 1;
  }
  const often = new Uint32Array(CELLS);
  for (let i = 0; i < moves.length; i++) often[i % CELLS] = must(often[i % CELLS], 'a cell') + must(moves[i], 'a cell');
  // A few windows say nothing of what always moves.
  const most = windows < 30 ? windows : windows * ALWAYS;
  return (window) => {
    let sum = 0;
    for (let cell = 0; cell < CELLS; cell++)
      if (must(often[cell], 'a cell') <= most) sum += must(moves[window * CELLS + cell], 'a cell');
    return sum;
  };
}
