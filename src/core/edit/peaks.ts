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
  const levels = [pairs];
  for (let level = pairs; level.length > 4; ) {
    const half = new Int8Array(Math.ceil(level.length / 4) * 2);
    for (let i = 0; i < half.length; i += 2) {
      const [low = 0, high = 0, low2 = low, high2 = high] = level.subarray(i * 2, i * 2 + 4);
      half[i] = Math.min(low, low2);
      half[i + 1] = Math.max(high, high2);
    }
    levels.push(half);
    level = half;
  }
  return { perSecond, levels };
}

/** The coarsest level that still has a pair for every line, and how many seconds one of its pairs spans. */
export function levelFor(peaks: Peaks, secondsPerLine: number): { pairs: Int8Array; secondsPerPair: number } {
  const wanted = Math.floor(Math.log2(Math.max(1, secondsPerLine * peaks.perSecond)));
  const at = Math.min(wanted, peaks.levels.length - 1);
  return { pairs: peaks.levels[at] ?? new Int8Array(), secondsPerPair: 2 ** at / peaks.perSecond };
}
