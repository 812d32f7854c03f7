import { SAMPLE_RATE } from './speech.ts';

/** Numbers −1 … 1 that are the same in every run. */
export function dice(seed: number): () => number {
  let state = seed >>> 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 31 - 1;
  };
}

/** A sound as a function of the time since its start, s. */
export type Noise = (t: number, random: () => number) => number;

const ring = (t: number, hertz: number, decay: number) => Math.sin(2 * Math.PI * hertz * t) * Math.exp(-t / decay);
const every = (t: number, period: number) => t % period;

/** The sounds of work, by name. */
export const WORK = {
  ratchet: (t, random) =>
    every(t, 1.9) < 1.2
      ? (ring(every(t, 0.11), 2400, 0.006) + 0.5 * random() * Math.exp(-every(t, 0.11) / 0.004)) * 0.34
      : 0,
  brush: (t, random) => random() * 0.09 * Math.abs(Math.sin(2 * Math.PI * 1.3 * t)),
  tap: (t, random) => (ring(every(t, 0.85), 190, 0.05) + 0.3 * random() * Math.exp(-every(t, 0.85) / 0.01)) * 0.4,
  pump: (t, random) =>
    random() * 0.07 * Math.max(0, Math.sin(2 * Math.PI * 0.45 * t)) + ring(every(t, 2.22), 420, 0.02) * 0.25,
  roll: (t, random) => random() * 0.035 + ring(every(t, 0.19), 1500, 0.004) * 0.2,
  screw: (t, random) => (random() * 0.05 + Math.sin(2 * Math.PI * 310 * t) * 0.03) * (every(t, 1.1) < 0.7 ? 1 : 0.15),
} satisfies Record<string, Noise>;

/** A spanner on concrete: three bounces. */
export const clang: Noise = (t, random) =>
  [0, 0.27, 0.41].reduce((sum, at, i) => {
    const s = t - at;
    if (s < 0) return sum;
    return (
      sum +
      (ring(s, 1830, 0.16) + ring(s, 2970, 0.11) + 0.6 * ring(s, 4310, 0.07) + random() * 0.8 * Math.exp(-s / 0.006)) *
        0.42 *
        0.5 ** i
    );
  }, 0);

/** The sticks of the slate. */
export const clap: Noise = (t, random) => random() * 0.85 * Math.exp(-t / 0.012) + ring(t, 900, 0.02) * 0.3;

/** The room: a far fan and the hum of the lamps, as a stream. */
export function room(seed: number): (sample: number) => number {
  const random = dice(seed);
  let low = 0;
  return (sample) => {
    low += (random() - low) * 0.06;
    return low * 0.007 + Math.sin((2 * Math.PI * 100 * sample) / SAMPLE_RATE) * 0.0006;
  };
}
