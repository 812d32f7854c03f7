import type { FrameRate } from './frame-rate.ts';
import { type Clock, type Ticks, ticks } from './ticks.ts';

/** The moments where a picture begins: what cues and points snap to. */
export interface FrameGrid<C extends Clock> {
  /** The start of the picture shown at a moment; before the first picture, the first. */
  down(moment: number): Ticks<C>;
  /** The first start at or after a moment: where a range that includes it may end. */
  up(moment: number): Ticks<C>;
  /** The nearer of the two; half-way goes up. */
  nearest(moment: number): Ticks<C>;
}

/** The grid of a constant frame rate, from the start of the clock on. */
export function evenGrid<C extends Clock>(rate: FrameRate): FrameGrid<C> {
  const frame = rate.ticksPerFrame;
  return grid(
    (moment) => ticks(Math.max(0, Math.floor(moment / frame) * frame)),
    (moment) => ticks(Math.max(0, Math.ceil(moment / frame) * frame)),
  );
}

/**
 * The grid of real presentation times, as a phone with a variable frame rate writes them.
 *
 *     pictures    |a  |b|c      |d |        each lasts until the next one begins
 *     moment             ^                  down: start of c · up: start of d
 *
 * @param times start of each picture, in order, ticks; no two the same
 * @param end where the last picture ends, ticks
 * @throws RangeError when there is no picture, or the times are not in order
 */
export function measuredGrid<C extends Clock>(times: readonly Ticks<C>[], end: Ticks<C>): FrameGrid<C> {
  const [first] = times;
  if (first === undefined) throw new RangeError('no presentation times: a grid needs at least one picture');
  const edges = [...times, end];
  const wrong = edges.findIndex((edge, i) => i > 0 && edge <= (edges[i - 1] ?? edge));
  if (wrong > 0) throw new RangeError(`presentation time ${wrong} does not come after the one before it`);
  const passed = (moment: number): number => {
    let low = 0;
    let high = edges.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((edges[middle] ?? end) <= moment) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return grid(
    (moment) => edges[passed(moment) - 1] ?? first,
    (moment) => {
      const at = passed(moment);
      const down = edges[at - 1];
      return down === moment ? down : (edges[at] ?? end);
    },
  );
}

function grid<C extends Clock>(down: (moment: number) => Ticks<C>, up: (moment: number) => Ticks<C>): FrameGrid<C> {
  const nearest = (moment: number) => (moment - down(moment) < up(moment) - moment ? down(moment) : up(moment));
  return { down, up, nearest };
}
