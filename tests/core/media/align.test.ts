import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { expect, test } from 'vitest';
import { alignSound } from '../../../src/core/media/index.ts';

// Invented sound at a low rate: noise in bursts, as talk is. Where the second lies is known, since it is cut out of the
// first. The same with rooms, rests and clocks as devices have them is in tests/media/align.test.ts.
const RATE = 500;

/** @param rests share of it that is quiet */
function bursts(seconds: number, seed: number, rests = 0.25): Float64Array {
  const random = xoroshiro128plus(seed);
  const next = () => uniformFloat64(random);
  const sound = new Float64Array(seconds * RATE);
  for (let at = 0; at < sound.length; ) {
    const [length, level] = [
      Math.round((0.08 + next() * 0.4) * RATE),
      next() < rests ? 0 : rests > 0 ? 0.2 + next() : 0.7,
    ];
    for (let i = 0; i < length && at < sound.length; i++, at++) sound[at] = level * (next() - 0.5);
  }
  return sound;
}

/** What a device hears from a moment on, whose clock runs so many parts per million fast. */
function heard(sound: Float64Array, from: number, seconds: number, drift = 0, gain = 1): Int16Array {
  return Int16Array.from({ length: seconds * RATE }, (_, i) => {
    const at = from * RATE + i / (1 + drift / 1e6);
    const [k, part] = [Math.floor(at), at - Math.floor(at)];
    return Math.round(20_000 * gain * ((sound[k] ?? 0) * (1 - part) + (sound[k + 1] ?? 0) * part));
  });
}
const WORLD = bursts(80, 7);
/** No rest in it, so that all of it is compared. */
const STEADY = bursts(80, 7, 0);
const value = (a: Int16Array, b: Int16Array) => {
  const aligned = alignSound(a, b, RATE);
  if (!aligned.ok) throw new Error(aligned.reason);
  return aligned.value;
};

test.each([
  ['later', 0, 21.237],
  ['at the same moment', 10, 10],
  ['earlier', 20, 7.5],
])('a device that began %s is found to the millisecond, however quiet', (_, first, second) => {
  const found = value(heard(WORLD, first, 40), heard(WORLD, second, 40, 0, 0.1));
  expect(found.offset).toBeCloseTo(second - first, 3);
  expect(Math.abs(found.drift)).toBeLessThan(2);
  expect(found.confidence).toBe(1);
});

test('as many stretches of four seconds as both hold are compared, and no more than sixteen', () => {
  const world = heard(STEADY, 0, 80);
  expect([4, 8, 12, 39].map((seconds) => value(world, heard(STEADY, 20, seconds)).stretches)).toEqual([1, 2, 3, 9]);
  expect(value(world, heard(STEADY, 2, 76)).stretches).toBe(16);
  // Where one runs out, what both hold.
  expect(value(heard(STEADY, 0, 40), heard(STEADY, 24, 40)).stretches).toBe(4);
});

test.each([100, -100])('a clock that runs away by %d parts in a million is told, with its sign', (drift) => {
  const { offset, drift: found } = value(heard(WORLD, 0, 80), heard(WORLD, 5, 70, drift));
  expect(offset).toBeCloseTo(5, 2);
  expect(Math.abs(found - drift)).toBeLessThan(15);
});

test('less than four seconds are too few to compare', () => {
  const world = heard(WORLD, 0, 40);
  const short = { ok: false, reason: 'less than 4 s of sound to compare' };
  expect(alignSound(world, heard(WORLD, 10, 3.999), RATE)).toEqual(short);
  expect(alignSound(heard(WORLD, 10, 3.999), world, RATE)).toEqual(short);
});

test('sound of something else is refused, and the likeliest place named', () => {
  const aligned = alignSound(heard(WORLD, 0, 40), heard(bursts(40, 8), 0, 40), RATE);
  expect(aligned).toMatchObject({
    ok: false,
    reason: 'the two do not hold the same sound: no offset was found on which most of it agrees',
    candidate: expect.any(Number),
  });
});

test('a hum fits at each of its periods, so it says nothing', () => {
  const hum = Float64Array.from({ length: 60 * RATE }, (_, i) => 0.5 * Math.sin((2 * Math.PI * 50 * i) / RATE));
  expect(alignSound(heard(hum, 0, 40), heard(hum, 7, 40), RATE).ok).toBe(false);
});

test('what is of the same moments for more than half is found, and told how far it agrees', () => {
  const mixed = (own: number) => {
    const sound = heard(STEADY, 10, 40);
    sound.set(heard(bursts(40, 8, 0), 0, own));
    return alignSound(heard(STEADY, 0, 60), sound, RATE);
  };
  const most = mixed(12);
  expect(most.ok && most.value.offset).toBeCloseTo(10, 3);
  // Three of ten stretches are something else.
  expect(most.ok && most.value.confidence).toBeCloseTo(0.7, 1);
  expect(mixed(30).ok).toBe(false);
});

test('where both are quiet for long, only what is heard votes', () => {
  const seldom = WORLD.map((sample, i) => (i % 30_000 < 8000 ? sample : sample * 0.0005));
  const noise = bursts(80, 9);
  const own = heard(seldom, 10, 60).map((sample, i) => sample + Math.round(40 * (noise[i] ?? 0)));
  const { offset, confidence } = value(heard(seldom, 0, 80), own);
  expect(offset).toBeCloseTo(10, 2);
  expect(confidence).toBeGreaterThan(0.7);
});
