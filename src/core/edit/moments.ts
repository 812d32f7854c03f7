import type { Recording } from '../model/index.ts';
import {
  type FrameGrid,
  type FrameRate,
  gridOf,
  isTimecode,
  printClockTime,
  printTimecode,
  TICKS_PER_SECOND,
  type Ticks,
} from '../time/index.ts';

type Moment = Ticks<'recording'>;

/** How a recording labels its frames, and where they begin. */
export interface Labels {
  /** Absent where no rate is known or in use, as for many phones: labels are then clock times. */
  readonly rate?: FrameRate;
  /** Frame number of the first frame's label. */
  readonly startFrame: number;
  /** Where pictures begin: as measured where they are uneven, else at the rate. */
  readonly grid: FrameGrid<'recording'>;
  /** The grid was measured: its pictures do not lie where labels count them. */
  readonly uneven: boolean;
}

/** The labels of a recording; without any rate the playhead steps by 1/25 s. */
export function labelsOf(recording: Pick<Recording, 'rate' | 'startFrame' | 'grid'> | undefined): Labels {
  const { rate, startFrame = 0, grid } = recording ?? {};
  return {
    startFrame,
    grid: gridOf(recording ?? {}),
    uneven: grid !== undefined,
    ...(rate && { rate }),
  };
}

/** The start of the frame shown at a moment; a moment written a hair before a frame counts as in it. */
export function onFrame(moment: number, { grid }: Pick<Labels, 'grid'>): Moment {
  return grid.shown(Math.max(0, moment));
}

/**
 * The moment nearest to another that an in or out point may have: the start of a frame, or the end of the recording,
 * which lies inside a frame where its sound outlasts its pictures.
 */
export function pointAt(
  moment: number,
  { labels, length }: { readonly labels: Labels; readonly length: Moment },
): Moment {
  return moment >= length && length > 0 ? length : onFrame(moment, labels);
}

/** How long the frame stands that is shown at a moment, ticks. */
export function frameLength(moment: number, { grid }: Pick<Labels, 'grid'>): number {
  return grid.step(moment, 1) - grid.shown(moment);
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
  const label = labels && isTimecode(like) ? labelOf(moment, leaning, labels) : undefined;
  if (label !== undefined) return label;
  const millisecond = TICKS_PER_SECOND / 1000;
  const exact = moment / millisecond;
  return printClockTime((leaning === 'start' ? Math.ceil(exact) : Math.floor(exact)) * millisecond);
}

/** The label that is read back as this moment; nothing where an uneven recording has none, or there is no rate. */
function labelOf(moment: Moment, leaning: Leaning, { rate, startFrame, grid, uneven }: Labels): string | undefined {
  if (!rate) return undefined;
  const frames = moment / rate.ticksPerFrame;
  const frame = !uneven ? Math.round(frames) : leaning === 'start' ? Math.ceil(frames) : Math.floor(frames);
  const at = frame * rate.ticksPerFrame;
  if (uneven && (leaning === 'start' ? grid.shown(at) : grid.ended(at)) !== moment) return undefined;
  return printTimecode(frame + startFrame, rate);
}

/** The label of the frame shown at a moment, for the eye: a clock time where frames are not counted. */
export function timecodeAt(moment: number, { rate, startFrame }: Pick<Labels, 'rate' | 'startFrame'>): string {
  if (rate) return printTimecode(Math.floor(moment / rate.ticksPerFrame + 0.04) + startFrame, rate);
  const [clock = '', fraction = ''] = printClockTime(moment).split('.');
  return `${clock.padStart(8, '0')}.${fraction.padEnd(3, '0')}`;
}
