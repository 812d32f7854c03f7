// Plain JavaScript, as the worker is that uses it.

/** @typedef {[start: number, end: number]} Span samples from the first, half-open */

/** Samples that are summed before neighbours are compared: what is left of a sound lies from 300 to 3000 Hz. */
const SUMMED = 4;
/** Share of the windows in which nothing but the room is heard, and the times its power above which there is more. */
const QUIETEST = 0.1;
const RISEN = 2;
/** Windows heard before and after whatever rises, two seconds: the network comes to know the room, and hears speech end. */
const AROUND = 63;

/**
 * Where there may be speech: wherever anything rises over the steady noise of the room, and two seconds around it. The
 * network is asked nowhere else, for it takes longer than all the rest.
 *
 * The power of steady noise in a window of 32 ms, of 1700 Hz of it, differs by a seventh, 0.6 dB (1/√(B·T): Bendat and
 * Piersol, "Random Data", the error of a mean square; from memory): what is twice as strong as the quietest tenth is no
 * such noise. Speech rises and falls by far more some four times a second, so that near any of it something has risen,
 * though it be faint. What is never quiet is heard whole.
 *
 * @param {Float32Array} samples 16 000 a second
 * @param {number} window samples
 * @returns {Span[]} in order, apart from each other, from the beginning of a window to the end of one
 */
export function whereToListen(samples, window) {
  const powers = powersOf(samples, window);
  const quiet = Float64Array.from(powers).sort()[Math.floor(QUIETEST * powers.length)] ?? 0;
  /** @type {Span[]} */
  const spans = [];
  powers.forEach((power, i) => {
    if (power <= RISEN * quiet) return;
    const start = Math.max(0, i - AROUND) * window;
    const end = Math.min(samples.length, (i + 1 + AROUND) * window);
    const last = spans.at(-1);
    if (last && start <= last[1]) last[1] = end;
    else spans.push([start, end]);
  });
  return spans;
}

/**
 * The sum of `SUMMED` samples.
 *
 * @param {Float32Array} samples
 * @param {number} at the first of them
 */
function sumOf(samples, at) {
  return samples[at] + samples[at + 1] + samples[at + 2] + samples[at + 3];
}

/**
 * Power of each window where speech is strongest; of any scale, for powers are only compared.
 *
 * @param {Float32Array} samples
 * @param {number} window
 */
function powersOf(samples, window) {
  const powers = new Float64Array(Math.ceil(samples.length / window));
  for (let i = 0; i < powers.length; i++) {
    const end = Math.min(samples.length, (i + 1) * window) - SUMMED;
    let before = sumOf(samples, i * window);
    let power = 0;
    for (let at = i * window + SUMMED; at <= end; at += SUMMED) {
      const sum = sumOf(samples, at);
      power += (sum - before) * (sum - before);
      before = sum;
    }
    powers[i] = power;
  }
  return powers;
}

/**
 * Stretches that were found in what was listened to, one span after the other, where they lie in the sound. One across
 * a seam becomes two.
 *
 * @param {readonly Span[]} found samples of what was listened to
 * @param {readonly Span[]} spans
 * @returns {Span[]}
 */
export function inWhole(found, spans) {
  let at = 0;
  return spans.flatMap(([start, end]) => {
    const from = at;
    at += end - start;
    return found.flatMap(([first, last]) => {
      const [a, b] = [Math.max(first, from), Math.min(last, at)];
      /** @type {Span[]} */
      const own = b > a ? [[start + a - from, start + b - from]] : [];
      return own;
    });
  });
}
