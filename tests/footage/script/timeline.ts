import { FRAME_RATES, type FrameRate } from '../../../src/core/time/index.ts';
import { isKept, type Scene, type Shoot } from './scene.ts';

/** The camera's rate: 30000/1001 frames a second. */
export const RATE: FrameRate = FRAME_RATES['29.97'];

/** A scene on the recording's clock. */
export interface Shot {
  readonly scene: Scene;
  /** First frame of it, and first frame of what follows; 0-based. */
  readonly startFrame: number;
  readonly endFrame: number;
  /** As the content writes the times: tenths of a second from the start of the recording. */
  readonly start: number;
  readonly end: number;
}

/** The frame on the screen at a time in tenths of a second. */
export function frameAtTenths(tenths: number): number {
  return Math.floor((tenths * RATE.numerator) / (RATE.denominator * 10));
}

/** Lays the scenes of a shoot one after the other. */
export function shotsOf({ scenes }: Shoot): readonly Shot[] {
  let start = 0;
  return scenes.map((scene) => {
    const end = start + Math.round(scene.seconds * 10);
    const shot = { scene, start, end, startFrame: frameAtTenths(start), endFrame: frameAtTenths(end) };
    start = end;
    return shot;
  });
}

/** Frames of the whole recording. */
export function framesOf(shoot: Shoot): number {
  return shotsOf(shoot).at(-1)?.endFrame ?? 0;
}

/** Camera files of a shoot: first frame and number of frames of each. */
export function filesOf(shoot: Shoot): readonly { readonly startFrame: number; readonly frames: number }[] {
  const starts = [0, ...shoot.splits];
  const ends = [...shoot.splits, framesOf(shoot)];
  return starts.map((startFrame, i) => ({ startFrame, frames: (ends[i] ?? 0) - startFrame }));
}

/** The ranges that stay, in tenths of a second; neighbours joined. */
export function keptOf(shoot: Shoot): readonly { readonly start: number; readonly end: number }[] {
  const kept: { start: number; end: number }[] = [];
  for (const { scene, start, end } of shotsOf(shoot)) {
    if (!isKept(scene)) continue;
    const last = kept.at(-1);
    if (last?.end === start) last.end = end;
    else kept.push({ start, end });
  }
  return kept;
}
