import { must } from '../time/index.ts';
import type { Stretch } from './analyse-args.ts';

/** Loudness is looked at in steps of this, s. */
const STEP = 0.02;
/** A rest shorter than this is part of speech, s; a sound shorter than this is no speech, s. (Common practice, no source.) */
const SHORTEST_REST = 0.6;
const SHORTEST_SOUND = 0.12;
/** Kept quiet before and after a word, so that no consonant is lost, s. */
const MARGIN = 0.1;
/** Below this nothing is heard at all, dBFS. */
const DIGITAL_SILENCE = -75;
/** How far sound has to rise above the room's noise to count as speech: this share of the way to the loud tenth. */
const SHARE = 0.35;

export interface SpeechAndSilence {
  readonly speech: readonly Stretch[];
  readonly silence: readonly Stretch[];
  /** Level between the two, dBFS; what the room's noise and the speech decided. */
  readonly threshold: number;
}

/**
 * Where somebody speaks or works, and where it is quiet. The border is not a fixed level: a workshop hums, so it lies
 * between the room's noise (the quietest tenth) and what is loud in this recording (the loudest tenth).
 *
 * @param samples one channel, −32 768 … 32 767
 * @param rate Hz
 */
export function listenFor(samples: Int16Array, rate: number): SpeechAndSilence {
  const levels = levelsOf(samples, rate);
  const length = samples.length / rate;
  if (levels.length === 0) return { speech: [], silence: length > 0 ? [[0, length]] : [], threshold: DIGITAL_SILENCE };
  const sorted = Float64Array.from(levels).sort();
  const level = (share: number) =>
    must(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))], 'a level');
  const [floor, loud] = [Math.max(DIGITAL_SILENCE, level(0.1)), level(0.9)];
  const threshold = loud - floor < 6 ? Math.min(loud, floor) - 6 : floor + SHARE * (loud - floor);
  const heard: Stretch[] = [];
  let from: number | undefined;
  let until = 0;
  levels.forEach((value, i) => {
    if (value < threshold) return;
    const at = i * STEP;
    if (from === undefined) from = at;
    else if (at - until > SHORTEST_REST) {
      if (until - from >= SHORTEST_SOUND) heard.push([from, until]);
      from = at;
    }
    until = at + STEP;
  });
  if (from !== undefined && until - from >= SHORTEST_SOUND) heard.push([from, until]);
  const speech = heard.map(([start, end]): Stretch => [Math.max(0, start - MARGIN), Math.min(length, end + MARGIN)]);
  return { speech, silence: between(speech, length), threshold };
}

/** Level of each step, dBFS. */
function levelsOf(samples: Int16Array, rate: number): number[] {
  const size = Math.round(rate * STEP);
  const levels: number[] = [];
  for (let at = 0; at + size <= samples.length; at += size) {
    let sum = 0;
    for (let i = at; i < at + size; i++) sum += must(samples[i], 'a sample') ** 2;
    levels.push(sum === 0 ? -120 : 10 * Math.log10(sum / size / 32_768 ** 2));
  }
  return levels;
}

function between(stretches: readonly Stretch[], length: number): Stretch[] {
  const gaps: Stretch[] = [];
  let from = 0;
  for (const [start, end] of stretches) {
    if (start > from) gaps.push([from, start]);
    from = Math.max(from, end);
  }
  if (length > from) gaps.push([from, length]);
  return gaps;
}

/** Lowest and highest sample of each stretch of 1/`perSecond` s, as pairs of −128 … 127: what a waveform is drawn from. */
export function peakPairs(samples: Int16Array, rate: number, perSecond: number): Int8Array {
  const size = rate / perSecond;
  const pairs = new Int8Array(Math.ceil(samples.length / size) * 2);
  for (let i = 0; i < pairs.length / 2; i++) {
    let low = 0;
    let high = 0;
    const end = Math.min(samples.length, Math.round((i + 1) * size));
    for (let at = Math.round(i * size); at < end; at++) {
      const value = must(samples[at], 'a sample');
      if (value < low) low = value;
      if (value > high) high = value;
    }
    pairs[i * 2] = low >> 8;
    pairs[i * 2 + 1] = high >> 8;
  }
  return pairs;
}

/** A clap stands out of the half second round it by this much, dB, and is this short, s. (Common practice, no source.) */
const CLAP = 18;
const CLAP_LENGTH = 0.12;

/**
 * Claps, of hands or a slate: short, much louder than what is before and after.
 *
 * @returns s
 */
export function findClaps(samples: Int16Array, rate: number): number[] {
  const levels = levelsOf(samples, rate);
  const around = Math.round(0.5 / STEP);
  const short = Math.round(CLAP_LENGTH / STEP);
  const claps: number[] = [];
  levels.forEach((value, i) => {
    if (value < -30) return;
    const before = loudest(levels, i - around, i - 2);
    const after = loudest(levels, i + short, i + around);
    const highest = loudest(levels, i - 1, i + short);
    if (value < highest || value - Math.max(before, after) < CLAP) return;
    const at = i * STEP;
    if (at - (claps.at(-1) ?? -1) > 0.3) claps.push(at);
  });
  return claps;
}

function loudest(levels: readonly number[], from: number, until: number): number {
  let most = -120;
  for (let i = Math.max(0, from); i < Math.min(levels.length, until); i++) most = Math.max(most, levels[i] ?? -120);
  return most;
}

/** The finest pairs and every coarser zoom, each half as fine as the one before, so that any zoom draws few pairs. */
export function peakLevels(pairs: Int8Array): Int8Array[] {
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
  return levels;
}
