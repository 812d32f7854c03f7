import { parseClockTime } from './clock-time.ts';
import type { FrameGrid } from './frame-grid.ts';
import type { FrameRate } from './frame-rate.ts';
import { fail, ok, type Parsed } from './parsed.ts';
import { type Ticks, ticks } from './ticks.ts';
import { framesPerDay, parseTimecode } from './timecode.ts';

/** How a recording labels its frames. */
export interface Labelling {
  /** Absent when neither written nor measured. */
  readonly rate?: FrameRate;
  /** Frame number of the first frame's label. */
  readonly startFrame: number;
  /** Where pictures really begin; only where they do not follow each other evenly. */
  readonly grid?: FrameGrid<'recording'>;
}

/** True for what is written as a timecode, legal or not; it needs a frame rate to be read. */
export function isTimecode(text: string): boolean {
  return /;|:\d+:\d+:/.test(text);
}

/**
 * A moment of a recording as written: `h:mm:ss(.fraction)` from its start, or the timecode of a frame.
 *
 * Where the pictures of the recording are uneven and their times were measured, a start goes down to the picture shown
 * then and an end up to the next one. Everywhere else it stays as it is written.
 *
 * @returns ticks from the start of the recording; a timecode before the start counts as past midnight
 */
export function parseMoment(
  text: string,
  labelling: Labelling,
  point: 'start' | 'end' = 'start',
): Parsed<Ticks<'recording'>> {
  const read = parseWritten(text, labelling);
  // What lies past the end stays there, for a rule to tell.
  if (!read.ok || !labelling.grid || labelling.grid.up(read.value) < read.value) return read;
  return ok(point === 'start' ? labelling.grid.shown(read.value) : labelling.grid.ended(read.value));
}

function parseWritten(text: string, { rate, startFrame }: Labelling): Parsed<Ticks<'recording'>> {
  if (!isTimecode(text)) return parseClockTime(text);
  if (!rate)
    return fail(
      `"${text}" is a timecode, but the frame rate of the recording is not known`,
      'write rate: in the recording file, or give the time as h:mm:ss.fraction',
    );
  const frame = parseTimecode(text, rate);
  if (!frame.ok) return frame;
  const day = framesPerDay(rate);
  return ok(ticks(((frame.value - startFrame + day) % day) * rate.ticksPerFrame));
}
