import type { Recording } from '../model/index.ts';
import { type EditEntry, type EditList, gridOf, type Ticks, ticks, withoutOverlaps } from '../time/index.ts';

type Moment = Ticks<'recording'>;

/**
 * The entries of a recording's edit list on whole frames, in order; without a list one entry, the whole recording.
 * What cannot be read, or ends before it starts, is left out: a diagnostic says so.
 */
export function entriesOf(recording: Recording): EditList {
  const { written, length, entries } = recording;
  if (!written.edit) return length ? [{ start: ticks(0), end: length }] : [];
  // Where one entry ends in the frame in which the next begins, the frame belongs to the next.
  return withoutOverlaps(
    entries.map(({ angle, inText, outText, ...at }): EditEntry => {
      const [start, end] = wholeFrames(at.start, at.end, recording);
      return { start, end, angle, inText, outText };
    }),
  );
}

/** In points down to their frame, out points up, so that nothing that was kept is lost; a hair beside a frame is on it. */
function wholeFrames(start: Moment, end: Moment, recording: Recording): readonly [Moment, Moment] {
  const { rate, grid: measured, length } = recording;
  if (!rate && !measured) return [start, end];
  const grid = gridOf(recording);
  const down = grid.shown(start);
  const up = grid.ended(end);
  // The last frame may be cut short by the end of the recording.
  const held = length !== undefined && end <= length ? Math.min(up, length) : up;
  return [ticks(down), ticks(Math.max(held, down + 1))];
}
