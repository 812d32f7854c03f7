import { expect, test } from 'vitest';
import { alignSound } from '../../src/core/media/index.ts';
import { dice } from './make.ts';

const RATE = 8000;

/** Something like talk: bursts of coloured noise with rests between. */
function talk(seconds: number, seed: number): Float64Array {
  const next = dice(seed);
  const sound = new Float64Array(seconds * RATE);
  let low = 0;
  for (let at = 0; at < sound.length; ) {
    const length = Math.round((0.08 + next() * 0.4) * RATE);
    const level = next() < 0.25 ? 0 : 0.2 + next();
    const colour = 0.2 + next() * 0.6;
    for (let i = 0; i < length && at < sound.length; i++, at++) {
      low += colour * (next() - 0.5 - low);
      sound[at] = level * low * Math.sin((Math.PI * i) / length);
    }
  }
  return sound;
}

/** What another device makes of it: later or earlier, its clock off, quieter, with noise of its own. */
function heardBy(sound: Float64Array, from: number, seconds: number, drift: number, gain: number, noise: number) {
  const next = dice(99 + Math.round(from));
  return Int16Array.from({ length: Math.round(seconds * RATE) }, (_, i) => {
    const at = from * RATE + i / (1 + drift / 1e6);
    const [k, part] = [Math.floor(at), at - Math.floor(at)];
    const value = (sound[k] ?? 0) * (1 - part) + (sound[k + 1] ?? 0) * part;
    return Math.max(-32_768, Math.min(32_767, Math.round(20_000 * (gain * value + noise * (next() - 0.5)))));
  });
}

const said = talk(200, 7);
const reference = heardBy(said, 0, 200, 0, 1, 0.01);

test.each([
  ['begins later', 41.237, 60, 50, 0.3, 0.05],
  ['with a clock that runs slow', 100.5, 60, -50, 0.3, 0.05],
  ['quiet, in a noisy room', 12.34, 120, 20, 0.1, 0.05],
  ['nearly whole', 3.21, 190, 50, 0.8, 0.02],
])('a second camera that %s is found within 5 ms all along', (_, from, seconds, drift, gain, noise) => {
  const aligned = alignSound(reference, heardBy(said, from, seconds, drift, gain, noise), RATE);
  if (!aligned.ok) throw new Error(aligned.reason);
  const { offset, drift: found, confidence } = aligned.value;
  expect(confidence).toBeGreaterThan(0.7);
  expect(Math.abs(offset - from)).toBeLessThan(0.005);
  const end = (ppm: number) => seconds / (1 + ppm / 1e6);
  expect(Math.abs(offset + end(found) - (from + end(drift)))).toBeLessThan(0.005);
});

test('a camera that began earlier lies before the start', () => {
  const later = heardBy(said, 20, 160, 0, 1, 0.01);
  const aligned = alignSound(later, heardBy(said, 7.5, 120, 0, 0.5, 0.02), RATE);
  expect(aligned.ok && aligned.value.offset).toBeCloseTo(-12.5, 2);
});

/** Somebody speaks a few seconds at a time, and is quiet for much longer: then each device hears its own noise alone. */
function seldom(seconds: number, seed: number, share: number): Float64Array {
  const next = dice(seed);
  const sound = talk(seconds, seed);
  for (let at = 0; at < seconds; ) {
    const speaks = 4 + next() * 8;
    const rests = (speaks / share) * (1 - share) * (0.5 + next());
    sound.fill(0, Math.round((at + speaks) * RATE), Math.round((at + speaks + rests) * RATE));
    at += speaks + rests;
  }
  return sound;
}

test.each([
  [0.3, 0.02],
  [0.15, 0.05],
])('a camera with real quiet in it, %d of it sound, is found by what both hear', (share, noise) => {
  const world = seldom(400, 21, share);
  const aligned = alignSound(heardBy(world, 0, 400, 0, 1, noise), heardBy(world, 33.25, 340, 30, 0.5, noise), RATE);
  if (!aligned.ok) throw new Error(aligned.reason);
  expect(Math.abs(aligned.value.offset - 33.25)).toBeLessThan(0.005);
  expect(aligned.value.confidence).toBeGreaterThan(0.7);
});

test('sound of another day with real quiet in it is refused, and the likeliest place named', () => {
  const aligned = alignSound(
    heardBy(seldom(300, 21, 0.3), 0, 300, 0, 1, 0.02),
    heardBy(seldom(200, 5, 0.3), 0, 200, 0, 1, 0.02),
    RATE,
  );
  expect(aligned.ok ? aligned.value : 'refused').toBe('refused');
  expect(aligned.ok ? undefined : aligned.candidate).toBeTypeOf('number');
});

test.each([8, 9, 10])('sound of another day is refused (%d)', (seed) => {
  const aligned = alignSound(reference, heardBy(talk(120, seed), 0, 120, 0, 1, 0.05), RATE);
  expect(aligned.ok ? aligned.value : 'refused').toBe('refused');
});

test('hum alone matches nothing', () => {
  const hum = (seconds: number, phase: number) =>
    Int16Array.from({ length: seconds * RATE }, (_, i) =>
      Math.round(5000 * Math.sin((2 * Math.PI * 50 * i) / RATE + phase)),
    );
  expect(alignSound(hum(60, 0), hum(30, 1), RATE).ok).toBe(false);
});
