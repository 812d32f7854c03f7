declare const clock: unique symbol;

/** The two clocks: of the uncut recording, and of the edited programme. */
export type Clock = 'recording' | 'programme';

/** Whole ticks of 1/705 600 000 s from the start of one clock; 0 … 2^53. Exact for every rate in use. */
export type Ticks<C extends Clock> = number & { readonly [clock]: C };

/** Half-open: `start` is in, `end` is out. Empty when equal, never negative. */
export interface Range<C extends Clock> {
  readonly start: Ticks<C>;
  readonly end: Ticks<C>;
}

/**
 * Divisible by 24, 25, 30, 48, 50, 60 frames a second and their 1000/1001 rates, by 1 000 ms,
 * 44 100 and 48 000 samples and 90 000 clock ticks.
 */
export const TICKS_PER_SECOND = 705_600_000;

/**
 * A whole number of ticks on a clock.
 *
 * @param count ticks
 * @throws RangeError when it is not a whole number that a double holds exactly
 */
export function ticks<C extends Clock>(count: number): Ticks<C> {
  if (!Number.isSafeInteger(count)) throw new RangeError(`${count} is not a whole number of ticks`);
  return count as Ticks<C>;
}

/**
 * The tick nearest to a time in seconds; for the edges only (ffmpeg, video element, text).
 *
 * @param seconds s
 * @throws RangeError when it is not finite or past 2^53 ticks
 */
export function fromSeconds<C extends Clock>(seconds: number): Ticks<C> {
  return ticks<C>(Math.round(seconds * TICKS_PER_SECOND));
}

/** Seconds, as a double; for the edges only. */
export function toSeconds(moment: number): number {
  return moment / TICKS_PER_SECOND;
}

/**
 * A half-open range.
 *
 * @throws RangeError when the end lies before the start
 */
export function range<C extends Clock>(start: Ticks<C>, end: Ticks<C>): Range<C> {
  if (end < start) throw new RangeError('a range cannot end before it starts');
  return { start, end };
}

/** Length of a range in ticks. */
export function lengthOf<C extends Clock>({ start, end }: Range<C>): number {
  return end - start;
}

/** True where the moment is in the half-open range. */
export function contains<C extends Clock>({ start, end }: Range<C>, moment: Ticks<C>): boolean {
  return start <= moment && moment < end;
}

/** The later of two moments. */
export function later<C extends Clock>(a: Ticks<C>, b: Ticks<C>): Ticks<C> {
  return ticks<C>(Math.max(a, b));
}

/** The earlier of two moments. */
export function earlier<C extends Clock>(a: Ticks<C>, b: Ticks<C>): Ticks<C> {
  return ticks<C>(Math.min(a, b));
}

/** What two ranges share, or nothing when they only touch. */
export function intersect<C extends Clock>(a: Range<C>, b: Range<C>): Range<C> | undefined {
  const start = later(a.start, b.start);
  const end = earlier(a.end, b.end);
  return start < end ? { start, end } : undefined;
}
