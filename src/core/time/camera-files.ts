import type { FrameRate } from './frame-rate.ts';
import { type Range, range, type Ticks, ticks } from './ticks.ts';
import { framesBetween, framesPerDay } from './timecode.ts';

/** What decides where a camera file lies on the recording's clock. */
export interface MeasuredFile {
  /** Length of the picture, ticks; of the sound where there is no picture. */
  readonly picture: number;
  /** Length of the sound, ticks; left out where there is none. Cameras let it run a little longer or shorter. */
  readonly sound?: number;
  /** Number of the first frame's label; left out when neither written nor carried by the file. */
  readonly startFrame?: number;
}

/** A camera file on the recording's clock. */
export interface PlacedFile {
  readonly at: Range<'recording'>;
  /** Ticks of nothing between the file before and this one; 0 for the first. */
  readonly gap: number;
  /** Ticks that the file before already covers, by the start timecodes; they are taken from there. */
  readonly overlap: number;
  /** Ticks by which the sound is longer (positive) or shorter (negative) than the picture; 0 without sound. */
  readonly soundLonger: number;
}

/**
 * Lays camera files on the recording's clock, in shooting order.
 *
 * A file with a start timecode lies where its label says, counted from the first file's and past midnight where the
 * count starts again; one without follows the file before. The picture decides how long a file is: the next file's
 * first picture comes right after the last one, however long the sound ran.
 *
 *     timecode    01:00:00:00        01:20:00:00   01:25:00:00
 *     files       |------ 1 --------||---- 2 --|   |--- 3 ---|
 *     recording   0                                ^ gap before 3
 *
 * A file that would begin before the one before it ends begins at that end instead, and says by how much (`overlap`):
 * two pictures cannot have one moment. A label half a day or more ahead is read as one that lies behind.
 */
export function placeFiles(files: readonly MeasuredFile[], rate: FrameRate): PlacedFile[] {
  const placed: PlacedFile[] = [];
  const origin = files[0]?.startFrame;
  const day = framesPerDay(rate);
  let end: Ticks<'recording'> = ticks(0);
  for (const file of files) {
    const wanted = startByLabel(file, origin, end, rate, day);
    const start = wanted > end ? wanted : end;
    const at = range<'recording'>(ticks(start), ticks(start + file.picture));
    placed.push({
      at,
      gap: start - end,
      overlap: start - wanted,
      soundLonger: file.sound === undefined ? 0 : file.sound - file.picture,
    });
    end = at.end;
  }
  return placed;
}

function startByLabel(
  file: MeasuredFile,
  origin: number | undefined,
  end: number,
  rate: FrameRate,
  day: number,
): number {
  if (file.startFrame === undefined || origin === undefined) return end;
  const after = framesBetween(origin, file.startFrame, rate) * rate.ticksPerFrame;
  const lap = day * rate.ticksPerFrame;
  const laps = Math.round((end - after) / lap);
  return after + laps * lap;
}

/**
 * The camera file that a moment of the recording comes from, and how far into the file it lies.
 *
 * @returns nothing where the moment lies in a gap or past the end
 */
export function fileAt(
  spans: readonly Range<'recording'>[],
  moment: Ticks<'recording'>,
): { readonly index: number; readonly into: number } | undefined {
  const index = spans.findIndex((span) => span.start <= moment && moment < span.end);
  const span = spans[index];
  return span && { index, into: moment - span.start };
}
