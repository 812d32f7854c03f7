import FFT from 'fft.js';
import { must } from '../time/index.ts';

/** How a second recording of the same moments lies to the first. */
export interface Alignment {
  /** Where its first sample lies on the clock of the reference, s; negative when it began earlier. */
  readonly offset: number;
  /** How much its clock runs fast against the reference's, parts per million: positive, it counts more seconds. */
  readonly drift: number;
  /** 0 … 1: share of the stretches compared that agree on offset and drift. */
  readonly confidence: number;
  /** Stretches compared. */
  readonly stretches: number;
}

export type Aligned =
  | { readonly ok: true; readonly value: Alignment }
  | {
      readonly ok: false;
      readonly reason: string;
      /** The likeliest offset, s: unsure, to be heard before anybody writes it. */
      readonly candidate?: number;
    };

/** Stretches compared for the fine offset: this long, and so many at most. */
const STRETCH = 4;
const STRETCHES = 16;
/** Stretches a rough offset is tried on before the rest is compared, and how many of them have to be found. */
const TRIED = 5;
const TRIED_FOUND = 3;
/** How far a stretch is looked for round where the coarse match puts it, s. */
const REACH = 0.5;
/** Steps of loudness the coarse match is made on, per second. */
const COARSE = 100;
/** Largest drift believed, parts per million: cameras and recorders stay well below (common practice, no source). */
const MOST_DRIFT = 200;
/** Stretches agree when they lie this near the common line, s. */
const AGREE = 0.004;
/** The next best place may reach this share of the best. */
const UNIQUE = 0.7;
/** Loudness is looked at in steps of this to tell sound from quiet, s. */
const LOOK = 1;
/** The quietest and the loudest that count, as shares of all steps. */
const FLOOR = 0.1;
const LOUD = 0.99;
/** A step is sound when it rises above the floor by this share of the way to what is loud; nearer than this all is, dB. */
const RISE = 0.35;
const STEADY = 6;
/** Fewer stretches with sound on both sides than this are no choice: then all are compared. */
const FEWEST = 3;
/** Fewer agreeing than this share is no match. */
const LEAST_CONFIDENCE = 0.5;

/**
 * Finds where a second recording of the same sound lies, by cross-correlation: first roughly, on how the loudness of
 * the whole changes; then finely, on many short stretches, whose offsets make a line: its start is the offset, its
 * slope the drift of one clock against the other. Only stretches with sound on both sides vote: in the quiet between,
 * each device hears its own noise. Stretches that do not agree do not count; if most do not, the two are not of the same
 * moments and no offset is given, but the likeliest one is named.
 *
 * @param reference one channel
 * @param other one channel, same rate
 * @param rate Hz
 * Source: generalised cross-correlation with phase transform (Knapp and Carter 1976; from memory), line through the
 * offsets by the median of slopes (Theil 1950, Sen 1968; from memory).
 */
export function alignSound(reference: Int16Array, other: Int16Array, rate: number): Aligned {
  const shortest = Math.min(reference.length, other.length) / rate;
  if (shortest < STRETCH) return { ok: false, reason: `less than ${STRETCH} s of sound to compare` };
  const coarse = coarseOffsets(changes(reference, rate), changes(other, rate));
  const sound = { reference: soundSteps(reference, rate), other: soundSteps(other, rate) };
  let best: Alignment | undefined;
  for (const offset of coarse) {
    const found = fineAlignment(reference, other, rate, offset / COARSE, sound);
    if (found && found.confidence > (best?.confidence ?? 0)) best = found;
    if (best && best.confidence > 0.9) break;
  }
  if (!best || best.confidence < LEAST_CONFIDENCE)
    return {
      ok: false,
      reason: 'the two do not hold the same sound: no offset was found on which most of it agrees',
      ...(coarse[0] !== undefined && { candidate: coarse[0] / COARSE }),
    };
  return { ok: true, value: best };
}

/** How loudness changes, in steps of 1/`COARSE` s, levelled so that gain and steady noise do not matter. */
function changes(samples: Int16Array, rate: number): Float64Array {
  const size = Math.round(rate / COARSE);
  const levels = new Float64Array(Math.floor(samples.length / size));
  for (let i = 0; i < levels.length; i++) {
    let sum = 1;
    for (let at = i * size; at < (i + 1) * size; at++) sum += must(samples[at], 'a sample') ** 2;
    levels[i] = Math.log(sum);
  }
  const changed = new Float64Array(levels.length);
  for (let i = 2; i < levels.length; i++) {
    const rise = must(levels[i], 'a level') - must(levels[i - 2], 'a level');
    changed[i] = Math.max(-3, Math.min(3, rise));
  }
  return changed;
}

/** The likeliest offsets of `b` on the clock of `a`, in steps, best first. */
function coarseOffsets(a: Float64Array, b: Float64Array): number[] {
  const size = powerOfTwo(a.length + b.length);
  const correlation = correlate(a, b, size, false);
  const candidates: { offset: number; value: number }[] = [];
  for (let i = 0; i < size; i++) {
    const offset = i < a.length ? i : i - size;
    if (offset <= -b.length || offset >= a.length) continue;
    const common = Math.min(a.length, offset + b.length) - Math.max(0, offset);
    if (common < STRETCH * COARSE) continue;
    candidates.push({ offset, value: must(correlation[i], 'a correlation') / Math.sqrt(common) });
  }
  candidates.sort((x, y) => y.value - x.value);
  const chosen: number[] = [];
  for (const { offset } of candidates) {
    if (chosen.every((other) => Math.abs(other - offset) > COARSE / 4)) chosen.push(offset);
    if (chosen.length === 5) break;
  }
  return chosen;
}

/** Which steps of a recording hold sound that rises above the quiet of that recording. */
function soundSteps(samples: Int16Array, rate: number): readonly boolean[] {
  const size = Math.round(rate * LOOK);
  const levels = Array.from({ length: Math.floor(samples.length / size) }, (_, step) => {
    let sum = 1;
    for (let at = step * size; at < (step + 1) * size; at++) sum += must(samples[at], 'a sample') ** 2;
    return 10 * Math.log10(sum / size);
  });
  const sorted = levels.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
  const [floor, loud] = [at(FLOOR), at(LOUD)];
  return levels.map((level) => loud - floor < STEADY || level >= floor + RISE * (loud - floor));
}

interface SoundOfBoth {
  readonly reference: readonly boolean[];
  readonly other: readonly boolean[];
}

/** Starts of stretches of the other that hold sound on both sides, samples; all of them where there are too few. */
function startsWithSound(from: number, until: number, rate: number, rough: number, sound: SoundOfBoth): number[] {
  const holds = (steps: readonly boolean[], start: number) =>
    Array.from({ length: STRETCH / LOOK }, (_, i) => steps[Math.floor(start / (rate * LOOK)) + i]).filter(Boolean)
      .length >=
    STRETCH / LOOK / 2;
  const all = Math.max(1, Math.floor((until - from) / (STRETCH * rate)) + 1);
  const starts = Array.from({ length: all }, (_, i) => Math.round(from + ((until - from) * i) / Math.max(1, all - 1)));
  const both = starts.filter(
    (start) => holds(sound.other, start) && holds(sound.reference, start + Math.round(rough * rate)),
  );
  const chosen = both.length >= FEWEST ? both : starts;
  const count = Math.min(STRETCHES, chosen.length);
  return Array.from({ length: count }, (_, i) => {
    return chosen[Math.round(((chosen.length - 1) * i) / Math.max(1, count - 1))] ?? from;
  });
}

function fineAlignment(
  reference: Int16Array,
  other: Int16Array,
  rate: number,
  rough: number,
  sound: SoundOfBoth,
): Alignment | undefined {
  const length = STRETCH * rate;
  const reach = Math.round(REACH * rate);
  const from = Math.max(0, -Math.round(rough * rate));
  const until = Math.min(other.length, reference.length - Math.round(rough * rate)) - length;
  if (until < from) return undefined;
  const size = powerOfTwo(length + 2 * reach);
  const starts = startsWithSound(from, until, rate, rough, sound);
  const points: { at: number; offset: number }[] = [];
  const tried = spread(starts, TRIED);
  for (const [i, start] of tried.entries()) {
    if (i === TRIED && points.length < TRIED_FOUND) return undefined;
    const there = start + Math.round(rough * rate);
    const a = slice(reference, there - reach, length + 2 * reach);
    const b = slice(other, start, length);
    const lag = sharpest(correlate(a, b, size, true), 2 * reach, 0.004 * rate);
    if (lag !== undefined) points.push({ at: start / rate, offset: rough + (lag - reach) / rate });
  }
  return lineThrough(points, starts.length);
}

/** The same values, with some from all along put first. */
function spread(values: readonly number[], first: number): number[] {
  const step = Math.max(1, Math.floor(values.length / first));
  const leading = values.filter((_, i) => i % step === 0).slice(0, first);
  return [...leading, ...values.filter((value) => !leading.includes(value))];
}

/** Offset and drift that most points agree on. */
function lineThrough(points: readonly { at: number; offset: number }[], count: number): Alignment | undefined {
  if (points.length < Math.max(1, count / 2)) return undefined;
  const slopes: number[] = [];
  for (const [i, p] of points.entries())
    for (const q of points.slice(i + 1)) if (q.at - p.at > STRETCH) slopes.push((q.offset - p.offset) / (q.at - p.at));
  const limit = MOST_DRIFT / 1e6;
  const believable = slopes.filter((slope) => Math.abs(slope) <= limit);
  const rough = believable.length >= slopes.length / 4 ? median(believable) : 0;
  const start = median(points.map(({ at, offset }) => offset - rough * at));
  const agreeing = points.filter(({ at, offset }) => Math.abs(offset - rough * at - start) <= AGREE);
  if (agreeing.length === 0) return undefined;
  const { slope, offset } = leastSquares(agreeing, rough);
  // A reference second lasts 1 + drift seconds of the other's clock.
  return { offset, drift: -slope * 1e6, confidence: agreeing.length / count, stretches: count };
}

function leastSquares(
  points: readonly { at: number; offset: number }[],
  otherwise: number,
): { slope: number; offset: number } {
  const n = points.length;
  const meanAt = points.reduce((sum, { at }) => sum + at, 0) / n;
  const meanOffset = points.reduce((sum, { offset }) => sum + offset, 0) / n;
  const spread = points.reduce((sum, { at }) => sum + (at - meanAt) ** 2, 0);
  const slope =
    spread < STRETCH ** 2
      ? otherwise
      : points.reduce((sum, { at, offset }) => sum + (at - meanAt) * (offset - meanOffset), 0) / spread;
  return { slope, offset: meanOffset - slope * meanAt };
}

function median(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = values.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const [low = 0, high = 0] = [sorted[Math.floor((sorted.length - 1) / 2)], sorted[middle]];
  return (low + high) / 2;
}

/** The lag from 0 to `most` where the correlation stands out; nothing where it does not. Between samples by a parabola. */
function sharpest(correlation: Float64Array, most: number, near: number): number | undefined {
  let at = 0;
  let sum = 0;
  for (let i = 0; i <= most; i++) {
    const value = must(correlation[i], 'a correlation');
    sum += value * value;
    if (value > must(correlation[at], 'a correlation')) at = i;
  }
  const top = must(correlation[at], 'a correlation');
  if (top < 5 * Math.sqrt(sum / (most + 1))) return undefined;
  // A steady hum fits at every period: a place that is not the only one is none.
  for (let i = 0; i <= most; i++)
    if (Math.abs(i - at) > near && must(correlation[i], 'a correlation') > UNIQUE * top) return undefined;
  const [before, after] = [correlation[at - 1] ?? top, correlation[at + 1] ?? top];
  const bend = before - 2 * top + after;
  return at + (bend < 0 ? (0.5 * (before - after)) / bend : 0);
}

/**
 * Circular cross-correlation by FFT: value `k` says how well `b` fits into `a` from its position `k` on.
 *
 * @param whitened every frequency counts alike, so that the peak is sharp whatever the room sounds like
 */
function correlate(a: Float64Array, b: Float64Array, size: number, whitened: boolean): Float64Array {
  const fft = transformOf(size);
  const [x, y] = [spectrum(fft, a, size), spectrum(fft, b, size)];
  const product: number[] = fft.createComplexArray();
  for (let i = 0; i < size * 2; i += 2) {
    const [ar = 0, ai = 0, br = 0, bi = 0] = [x[i], x[i + 1], y[i], y[i + 1]];
    const [real, imaginary] = [ar * br + ai * bi, ai * br - ar * bi];
    const weight = whitened ? 1 / (Math.hypot(real, imaginary) + 1e-9) : 1;
    product[i] = real * weight;
    product[i + 1] = imaginary * weight;
  }
  const back: number[] = fft.createComplexArray();
  fft.inverseTransform(back, product);
  return Float64Array.from({ length: size }, (_, i) => must(back[i * 2], 'a correlation'));
}

const transforms = new Map<number, FFT>();

/** Tables of a size are made once. */
function transformOf(size: number): FFT {
  const fft = transforms.get(size) ?? new FFT(size);
  transforms.set(size, fft);
  return fft;
}

function spectrum(fft: FFT, values: Float64Array, size: number): number[] {
  const padded = new Array<number>(size).fill(0);
  for (let i = 0; i < values.length; i++) padded[i] = must(values[i], 'a value');
  const out: number[] = fft.createComplexArray();
  fft.realTransform(out, padded);
  fft.completeSpectrum(out);
  return out;
}

function slice(samples: Int16Array, from: number, length: number): Float64Array {
  return Float64Array.from({ length }, (_, i) => samples[from + i] ?? 0);
}

function powerOfTwo(atLeast: number): number {
  return 2 ** Math.ceil(Math.log2(Math.max(2, atLeast)));
}
