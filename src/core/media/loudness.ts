/** Loudness of blocks of 400 ms that overlap by 75 %, LUFS: one value every 100 ms (ITU-R BS.1770). */
export type Blocks = readonly number[];

/** ITU-R BS.1770-4: blocks below it never count, LUFS. */
const ABSOLUTE_GATE = -70;
/** ITU-R BS.1770-4: blocks this far below the mean of the rest do not count, LU. */
const RELATIVE_GATE = -10;

const power = (lufs: number) => 10 ** (lufs / 10);
const level = (mean: number) => 10 * Math.log10(mean);

/**
 * Integrated loudness of a programme from the loudness of its blocks.
 *
 * @returns LUFS; nothing where no block is loud enough to count
 * Source: ITU-R BS.1770-4, annex 1: mean power of the blocks above −70 LUFS, then of those not more than 10 LU below it.
 */
export function integratedLoudness(blocks: Blocks): number | undefined {
  const heard = blocks.filter((block) => block > ABSOLUTE_GATE);
  if (heard.length === 0) return undefined;
  const gate = level(mean(heard.map(power))) + RELATIVE_GATE;
  return level(mean(heard.filter((block) => block > gate).map(power)));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Between the ends of two blocks, and from the begin of one to its end, s. */
const STEP = 0.1;
const BLOCK = 0.4;

/**
 * Loudness of speech alone: of the blocks that lie whole within it.
 *
 * @param blocks the first of them ends `STEP` after the sound began: the first three are not whole
 * @param speech s from the beginning of the sound
 */
export function blocksWithin(blocks: Blocks, speech: readonly (readonly [start: number, end: number])[]): Blocks {
  return speech.flatMap(([start, end]) => {
    const first = Math.max(3, Math.ceil((start + BLOCK) / STEP - 1 - 1e-9));
    return blocks.slice(first, Math.max(first, Math.floor(end / STEP + 1e-9)));
  });
}

/** What was measured of one stretch of sound. */
export interface Measured {
  readonly blocks: Blocks;
  /** dBTP; absent in silence. */
  readonly truePeak?: number | undefined;
}

export interface Levelling {
  /** Gain for the whole programme, dB, in steps of `GAIN_STEP`. */
  readonly gain: number;
  /** True where peaks would pass the ceiling, so that a limiter has to hold them. */
  readonly limit: boolean;
  /** Before, LUFS and dBTP; absent in silence. Of speech alone where it was levelled on that. */
  readonly loudness?: number;
  readonly truePeak?: number;
  /** Of the whole programme before, LUFS; only where it was levelled on speech. */
  readonly programme?: number;
}

/** Steps of the gain, dB: coarse enough that a moved cut seldom changes it, fine enough for ±0.1 LU. */
export const GAIN_STEP = 0.2;
/** EBU R 128: highest true peak of a programme, dBTP. */
export const TRUE_PEAK_CEILING = -1;
/** More gain than this would lift noise, not speech (common practice, no source), dB. */
export const MOST_GAIN = 24;

/** Less speech than this says too little about how loud it is, blocks: 5 s. */
const LEAST_SPEECH = 50;

/**
 * The gain that brings a programme to a target, from what its stretches measured: the second pass applies it.
 *
 * @param target LUFS
 * @param speech blocks that lie within speech: they decide, where there are enough of them, so that tools and quiet do not
 */
export function planLevelling(stretches: readonly Measured[], target: number, speech: Blocks = []): Levelling {
  const whole = integratedLoudness(stretches.flatMap(({ blocks }) => blocks));
  const spoken = speech.length < LEAST_SPEECH ? undefined : integratedLoudness(speech);
  const loudness = spoken ?? whole;
  const peaks = stretches.flatMap(({ truePeak }) => (truePeak === undefined ? [] : [truePeak]));
  if (loudness === undefined) return { gain: 0, limit: false };
  const wanted = Math.min(MOST_GAIN, target - loudness);
  const gain = Number((Math.round(wanted / GAIN_STEP) * GAIN_STEP).toFixed(1));
  const truePeak = peaks.length > 0 ? Math.max(...peaks) : undefined;
  return {
    gain,
    limit: truePeak !== undefined && truePeak + gain > TRUE_PEAK_CEILING,
    loudness,
    ...(truePeak !== undefined && { truePeak }),
    ...(spoken !== undefined && whole !== undefined && { programme: whole }),
  };
}
