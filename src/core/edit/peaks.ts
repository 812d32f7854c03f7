import { peakLevels } from '../media/index.ts';

/** Lowest and highest sound of each stretch of time, as pairs of -128 … 127; each level half as fine as the one before. */
export interface Peaks {
  /** Pairs in a second at the finest level. */
  readonly perSecond: number;
  readonly levels: readonly Int8Array[];
}

/**
 * The pyramid over the finest pairs, so that any zoom draws about one pair a line however long the recording is.
 *
 * @param pairs low, high, low, high, …
 * @param perSecond pairs in a second
 */
export function buildPeaks(pairs: Int8Array, perSecond: number): Peaks {
  return { perSecond, levels: peakLevels(pairs) };
}

/** The coarsest level that still has a pair for every line, and how many seconds one of its pairs spans. */
export function levelFor(peaks: Peaks, secondsPerLine: number): { pairs: Int8Array; secondsPerPair: number } {
  const wanted = Math.floor(Math.log2(Math.max(1, secondsPerLine * peaks.perSecond)));
  const at = Math.min(wanted, peaks.levels.length - 1);
  return { pairs: peaks.levels[at] ?? new Int8Array(), secondsPerPair: 2 ** at / peaks.perSecond };
}
