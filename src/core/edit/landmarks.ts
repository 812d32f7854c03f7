import { firstWhere, type Ticks } from '../time/index.ts';

type Moment = Ticks<'recording'>;

/** What the playhead jumps to and what an edge snaps to. */
export const LANDMARKS = ['silence', 'scene', 'cut', 'cue', 'caption', 'word', 'keyframe'] as const;
export type LandmarkKind = (typeof LANDMARKS)[number];

/** Moments of each kind, in order. */
export type Landmarks = Readonly<Record<LandmarkKind, readonly Moment[]>>;

export const NO_LANDMARKS: Landmarks = {
  silence: [],
  scene: [],
  cut: [],
  cue: [],
  caption: [],
  word: [],
  keyframe: [],
};

/** First position whose moment is not before the wanted one; the length where all are before. */
export function firstFrom(moments: readonly Moment[], wanted: number): number {
  return firstWhere(moments, (moment) => moment >= wanted);
}

/** The next moment after this one, or the last before it; nothing at the end of the row. */
export function neighbour(moments: readonly Moment[], from: Moment, way: 1 | -1): Moment | undefined {
  return way === 1 ? moments[firstFrom(moments, from + 1)] : moments[firstFrom(moments, from) - 1];
}

/**
 * The nearest moment of any of the kinds within reach.
 *
 * @param reach ticks to either side
 */
export function nearestLandmark(
  landmarks: Landmarks,
  kinds: readonly LandmarkKind[],
  to: Moment,
  reach: number,
): { kind: LandmarkKind; at: Moment } | undefined {
  let best: { kind: LandmarkKind; at: Moment } | undefined;
  for (const kind of kinds) {
    const row = landmarks[kind];
    const here = firstFrom(row, to);
    for (const at of [row[here - 1], row[here]]) {
      if (at === undefined || Math.abs(at - to) > reach) continue;
      if (!best || Math.abs(at - to) < Math.abs(best.at - to)) best = { kind, at };
    }
  }
  return best;
}

/** Moments in order, each once. */
export function inOrder(moments: readonly Moment[]): readonly Moment[] {
  return moments.toSorted((a, b) => a - b).filter((at, i, row) => i === 0 || at !== row[i - 1]);
}
