import FFT from 'fft.js';
import { must } from '../time/index.ts';

/** Sound as alignment hears it: samples a second, and how far its looks lie apart, s. */
export const HEARD_RATE = 16_000;
export const LOOK = 0.04;

const SIZE = 1024;
const STEP = Math.round(HEARD_RATE * LOOK);
/** Bands on the mel scale, and from where to where, Hz: where voices differ least and words most. */
const BANDS = 24;
const LOWEST = 150;
const HIGHEST = 6000;
/** Numbers that each look is told by. */
export const NUMBERS = 12;

/** Sound as numbers: `NUMBERS` a look, one look after the other, each with mean 0 and deviation 1 over the whole. */
export interface Looks {
  readonly values: Float32Array;
  readonly count: number;
}

/**
 * Mel-frequency cepstral coefficients without the first, which is the loudness.
 *
 * @param samples at `HEARD_RATE`, one channel; fewer than a look's worth give none
 * @returns `NUMBERS` a look, as measured
 * Source: Davis and Mermelstein, "Comparison of parametric representations for monosyllabic word recognition", 1980.
 */
export function lookAt(samples: Float32Array): Float32Array {
  const count = Math.max(0, Math.floor((samples.length - SIZE) / STEP) + 1);
  const values = new Float32Array(count * NUMBERS);
  const fft = new FFT(SIZE);
  const windowed = new Array<number>(SIZE).fill(0);
  const spectrum = fft.createComplexArray();
  const logs = new Float64Array(BANDS);
  for (let look = 0; look < count; look++) {
    const from = look * STEP;
    for (let i = 0; i < SIZE; i++) {
      const raised = (samples[from + i] ?? 0) - 0.97 * (samples[from + i - 1] ?? 0);
      windowed[i] = raised * must(HANN[i], 'a weight');
    }
    fft.realTransform(spectrum, windowed);
    for (let b = 0; b < BANDS; b++) {
      const { first, weights } = MEL[b] ?? NO_BAND;
      let power = 0;
      for (let i = 0; i < weights.length; i++) {
        const bin = 2 * (first + i);
        power +=
          must(weights[i], 'a weight') *
          (must(spectrum[bin], 'a number of the spectrum') ** 2 +
            must(spectrum[bin + 1], 'a number of the spectrum') ** 2);
      }
      logs[b] = Math.log(power + 1e-7);
    }
    for (let n = 0; n < NUMBERS; n++) {
      let sum = 0;
      for (let b = 0; b < BANDS; b++)
        sum += must(logs[b], 'the power of a band') * must(COSINES[n * BANDS + b], 'a cosine');
      values[look * NUMBERS + n] = sum;
    }
  }
  return values;
}

/** Parts one after the other, evened out over the whole, so that neither microphone nor voice counts for much. */
export function evenedOut(parts: readonly Float32Array[]): Looks {
  const values = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    values.set(part, at);
    at += part.length;
  }
  const count = values.length / NUMBERS;
  for (let n = 0; n < NUMBERS; n++) {
    let [sum, squares] = [0, 0];
    for (let i = n; i < values.length; i += NUMBERS) {
      const value = must(values[i], 'a number of a look');
      sum += value;
      squares += value * value;
    }
    const mean = sum / Math.max(1, count);
    const deviation = Math.sqrt(Math.max(1e-9, squares / Math.max(1, count) - mean * mean));
    for (let i = n; i < values.length; i += NUMBERS)
      values[i] = (must(values[i], 'a number of a look') - mean) / deviation;
  }
  return { values, count };
}

const HANN = Float64Array.from({ length: SIZE }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / SIZE));

const COSINES = Float64Array.from({ length: NUMBERS * BANDS }, (_, i) =>
  Math.cos((Math.PI * (Math.floor(i / BANDS) + 1) * ((i % BANDS) + 0.5)) / BANDS),
);

/** Bins of a band, from the first on, with their weights. */
interface Band {
  readonly first: number;
  readonly weights: Float64Array;
}
const NO_BAND: Band = { first: 0, weights: new Float64Array(0) };

/** Triangles that overlap by half on the mel scale. */
const MEL: readonly Band[] = (() => {
  const mel = (hertz: number) => 2595 * Math.log10(1 + hertz / 700);
  const hertz = (value: number) => 700 * (10 ** (value / 2595) - 1);
  const step = (mel(HIGHEST) - mel(LOWEST)) / (BANDS + 1);
  const edge = (i: number) => (hertz(mel(LOWEST) + i * step) * SIZE) / HEARD_RATE;
  return Array.from({ length: BANDS }, (_, b): Band => {
    const [low, top, high] = [edge(b), edge(b + 1), edge(b + 2)];
    const first = Math.floor(low) + 1;
    return {
      first,
      weights: Float64Array.from({ length: Math.max(0, Math.floor(high) - first + 1) }, (_, i) =>
        first + i <= top ? (first + i - low) / (top - low) : (high - first - i) / (high - top),
      ),
    };
  });
})();
