import type { EditList, FrameRate } from '../time/index.ts';

/** A run of whole frames of the recording that stays in the programme. */
export interface KeptFrames {
  /** First frame, counted from the start of the recording. */
  readonly first: number;
  readonly count: number;
  /** Where it comes in the programme, frames. */
  readonly at: number;
}

/**
 * An edit list in whole frames. Points on frames stay as they are; points between frames, as clock times give them,
 * go to the nearest, and the length is chosen so that every join lies within half a frame of its exact programme time:
 * rounding never adds up.
 *
 *     edit        |----a----|xxx|-----b-----|         lengths 9.4 and 11.4 frames
 *     programme   |----9----|------12-------|         joins at 9.4 → 9 and 20.8 → 21
 */
export function keptFrames(edit: EditList, rate: FrameRate): KeptFrames[] {
  const frame = rate.ticksPerFrame;
  const runs: KeptFrames[] = [];
  let exact = 0;
  for (const { start, end } of edit) {
    const at = Math.round(exact / frame);
    exact += end - start;
    const count = Math.round(exact / frame) - at;
    if (count > 0) runs.push({ first: Math.round(start / frame), count, at });
  }
  return runs;
}

/** Length of the programme in frames. */
export function frameTotal(runs: readonly KeptFrames[]): number {
  const last = runs.at(-1);
  return last ? last.at + last.count : 0;
}
