import { type FrameRate, printClockTime, printTimecode, TICKS_PER_SECOND, type Ticks, ticks } from '../time/index.ts';

type Moment = Ticks<'recording'>;

/** How a recording labels its frames. */
export interface Labels {
  readonly rate: FrameRate;
  /** Frame number of the first frame's label. */
  readonly startFrame: number;
}

/** A written time is at most half a millisecond off its frame, and no frame is shorter than 16 of them. */
export function frameNear(moment: number, { ticksPerFrame }: FrameRate): number {
  return Math.round(moment / ticksPerFrame);
}

/** The frame that is shown at a moment, as its first tick; a moment written a hair before a frame counts as in it. */
export function shownFrame(moment: number, rate: FrameRate): number {
  return Math.floor(moment / rate.ticksPerFrame + 0.04);
}

/** The first tick of the frame shown at a moment. */
export function onFrame(moment: number, rate: FrameRate): Moment {
  return ticks(Math.max(0, shownFrame(moment, rate)) * rate.ticksPerFrame);
}

/** Which side of its frame a time leans to when milliseconds cannot say it exactly. */
export type Leaning = 'start' | 'end';

/**
 * A moment as it is written into a file: timecode where the file used timecode before, otherwise `h:mm:ss.fff`.
 *
 * Thousandths cannot hold a frame of 1001/30000 s. A start is written up, so that it lies in its own frame; an end
 * is written down, so that it never lets the next frame in.
 *
 *     frames        |   n-1   |    n    |   n+1   |
 *     start of n               ^ up to the next ms
 *     end before n            ^ down to the ms before
 *
 * @param like the time it replaces, or one beside it
 */
export function writeMoment(moment: Moment, leaning: Leaning, labels: Labels | undefined, like = ''): string {
  if (labels && /;|:\d+:\d+:/.test(like))
    return printTimecode(frameNear(moment, labels.rate) + labels.startFrame, labels.rate);
  const millisecond = TICKS_PER_SECOND / 1000;
  const exact = moment / millisecond;
  return printClockTime((leaning === 'start' ? Math.ceil(exact) : Math.floor(exact)) * millisecond);
}

/** The label of the frame shown at a moment, for the eye. */
export function timecodeAt(moment: number, { rate, startFrame }: Labels): string {
  return printTimecode(shownFrame(moment, rate) + startFrame, rate);
}
