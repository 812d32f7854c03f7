import type { Recording } from '../model/index.ts';
import { printClockTime, TICKS_PER_SECOND, timecodeAt } from '../time/index.ts';

/**
 * A moment of a recording as it is written into its files: a clock time where that is exact or frames are not counted
 * evenly, else the timecode of the frame.
 */
export function momentText(at: number, { rate, startFrame, grid }: Recording): string {
  const exact = at % (TICKS_PER_SECOND / 1000) === 0;
  return exact || !rate || grid ? printClockTime(at) : timecodeAt(at, rate, startFrame);
}
