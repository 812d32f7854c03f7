import type { Angle, Recording, Shot } from '../model/index.ts';
import type { FrameRate } from '../time/index.ts';
import type { KeptFrames } from './kept-frames.ts';

/** The files of the angles that a recording shows or is heard by, each once, in the order written. */
export function anglesUsed({ angles, shots, written }: Recording): readonly Angle[] {
  return angles.filter(({ id }) => id === written.sound || shots.some(({ angle }) => angle === id));
}

/** A kept run of frames, and the angle it shows where that is not the recording's own camera. */
export interface PictureRun extends KeptFrames {
  readonly angle?: string;
}

/**
 * Kept runs, split where the camera changes. The sound goes on over such a change: it is no join.
 *
 *     kept    |----------a----------|xxx|-----b-----|
 *     shots          |-side-|           |----side---|
 *     runs    |------|-side-|-------|   |----side---|
 */
export function pictureRuns(
  kept: readonly KeptFrames[],
  shots: readonly Shot[],
  { ticksPerFrame }: FrameRate,
): PictureRun[] {
  const changes = shots.flatMap(({ start, end }) => [start, end]).map((moment) => Math.round(moment / ticksPerFrame));
  return kept.flatMap((run) => {
    const last = run.first + run.count;
    const inside = changes.filter((frame) => run.first < frame && frame < last);
    const borders = [...new Set([run.first, ...inside, last])].toSorted((a, b) => a - b);
    return borders.slice(0, -1).map((first, i): PictureRun => {
      const count = (borders[i + 1] ?? last) - first;
      // Its middle, since points between two frames went to the nearest.
      const middle = (first + count / 2) * ticksPerFrame;
      const shot = shots.find((shot) => shot.start <= middle && middle < shot.end);
      return { first, count, at: run.at + first - run.first, ...(shot && { angle: shot.angle }) };
    });
  });
}

/** Frames of the recording that frames of an angle's file stand for one by one. */
export interface AngleFrames {
  /** Frame of the recording that the file's first frame would fall on; negative when it began earlier. */
  readonly first: number;
  /** Frames of the recording. */
  readonly from: number;
  readonly count: number;
}

/**
 * The frame of an angle's file nearest in time to each frame of the recording, as runs in which both count alike. Where
 * its clock has run away by a frame, the next run leaves one out or shows one twice.
 *
 *     recording   |0|1|2|3|4|5|6|7|8|        its clock is fast: 10 frames for 9
 *     angle       |0|1|2|3|4|6|7|8|9|        two runs, the second begins a frame earlier
 *
 * @param runs of the programme that show it
 * @param frames that the file holds, at the rate of the recording
 */
export function angleFrames(
  runs: readonly KeptFrames[],
  { offset = 0, drift }: Pick<Angle, 'offset' | 'drift'>,
  frames: number,
  { ticksPerFrame }: FrameRate,
): AngleFrames[] {
  const found: { first: number; from: number; count: number }[] = [];
  for (const run of runs)
    for (let frame = run.first; frame < run.first + run.count; frame++) {
      const own = Math.round(((frame * ticksPerFrame - offset) * (1 + drift / 1e6)) / ticksPerFrame);
      if (own < 0 || own >= frames) continue;
      const last = found.at(-1);
      if (last?.first === frame - own) last.count = frame + 1 - last.from;
      else found.push({ first: frame - own, from: frame, count: 1 });
    }
  return found;
}

/** Frames of the recording that a file shows, and the angle it belongs to; none for the recording's own camera. */
export interface FileFrames {
  readonly from: number;
  readonly count: number;
  readonly angle?: string;
}

/** Frames of the programme that a file shows. @param shown runs of the programme */
export function usedOf({ from, count, angle }: FileFrames, shown: readonly PictureRun[]): number {
  return shown.reduce(
    (sum, run) =>
      run.angle === angle
        ? sum + Math.max(0, Math.min(run.first + run.count, from + count) - Math.max(run.first, from))
        : sum,
    0,
  );
}
