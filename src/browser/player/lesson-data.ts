import type { LessonData, TimedPart } from '../../core/pages/index.ts';
import { toSeconds } from '../../core/time/index.ts';

export type { LessonData, TimedPart };

/**
 * The part on screen at a moment; in a gap between parts, the last one that has begun.
 *
 * @param frame length of a frame, seconds: a part that begins anywhere in the frame on screen has begun
 */
export function partAt(parts: readonly TimedPart[], seconds: number, frame: number): TimedPart | undefined {
  // The player stands at the middle of a frame.
  return parts.findLast(({ start, end }) => start <= seconds + frame / 2 + 0.0005 && end > start);
}

/** The part so many places after (or before) the one on screen; only parts that are on screen count. */
export function neighbour(
  parts: readonly TimedPart[],
  seconds: number,
  frame: number,
  places: number,
): TimedPart | undefined {
  const shown = parts.filter(({ start, end }) => end > start);
  const here = partAt(shown, seconds, frame);
  return shown[(here ? shown.indexOf(here) : -1) + places];
}

/** Length of a frame, seconds; a thirtieth where the rate is unknown or varies. */
export function frameSeconds({ plan }: LessonData): number {
  return plan.frame === undefined ? 1 / 30 : toSeconds(plan.frame);
}
