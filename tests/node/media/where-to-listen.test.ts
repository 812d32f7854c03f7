import fc from 'fast-check';
import { expect, test } from 'vitest';
import { inWhole, whereToListen } from '../../../src/node/media/where-to-listen.mjs';

const RATE = 16_000;
const WINDOW = 512;
const AROUND = 63 * WINDOW;

/** Steady noise with a normal distribution (Box and Muller 1958), of a seed, so that it is the same each time. */
function noise(seconds: number, strength: number, seed = 1): Float32Array {
  let state = seed;
  const next = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 1) / 2 ** 32;
  };
  return Float32Array.from(
    { length: seconds * RATE },
    () => strength * Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next()),
  );
}

/** Adds a tone of 800 Hz, so many times as strong as the noise is in the speech band, from a window on. */
function withTone(samples: Float32Array, from: number, windows: number, strength: number): Float32Array {
  const own = samples.slice();
  for (let at = from * WINDOW; at < (from + windows) * WINDOW; at++)
    own[at] = (own[at] ?? 0) + strength * Math.sin((2 * Math.PI * 800 * at) / RATE);
  return own;
}

const asked = (spans: readonly (readonly [number, number])[]) =>
  spans.reduce((sum, [start, end]) => sum + end - start, 0);

test.each([0.3, 0.001, 1e-6])('steady noise of a strength of %d is not listened to', (strength) => {
  const samples = noise(120, strength);
  expect(asked(whereToListen(samples, WINDOW))).toBeLessThan(0.1 * samples.length);
  expect(whereToListen(new Float32Array(RATE), WINDOW)).toEqual([]);
});

test('what rises over the noise of the room is, with two seconds before and after, however faint the room', () => {
  for (const strength of [0.1, 0.001]) {
    const room = noise(20, strength, 3);
    expect(whereToListen(room, WINDOW)).toEqual([]);
    // In the room's own strength: a sentence 20 dB under the loud ones that stand beside it.
    const loud = withTone(withTone(room, 560, 4, 10 * strength), 300, 4, strength);
    expect(whereToListen(loud, WINDOW)).toEqual([
      [300 * WINDOW - AROUND, 304 * WINDOW + AROUND],
      [560 * WINDOW - AROUND, 20 * RATE],
    ]);
    const faint = withTone(room, 300, 2, strength);
    expect(whereToListen(faint, WINDOW)).toEqual([[300 * WINDOW - AROUND, 302 * WINDOW + AROUND]]);
    expect(whereToListen(withTone(room, 300, 2, 0.1 * strength), WINDOW)).toEqual([]);
  }
});

test('what begins or ends with it begins and ends with the sound; two that are near are one', () => {
  const room = noise(20, 0.01, 3);
  const end = 20 * RATE;
  expect(whereToListen(withTone(room, 2, 1, 0.1), WINDOW)).toEqual([[0, 3 * WINDOW + AROUND]]);
  expect(whereToListen(withTone(room, 623, 2, 0.1), WINDOW)).toEqual([[623 * WINDOW - AROUND, end]]);
  const two = (apart: number) => withTone(withTone(room, 200, 1, 0.1), 201 + apart, 1, 0.1);
  expect(whereToListen(two(126), WINDOW)).toHaveLength(1);
  expect(whereToListen(two(127), WINDOW)).toHaveLength(2);
});

test('what is never quiet is listened to whole', () => {
  const samples = noise(30, 0.1).map((sample, at) => (at % 8000 < 4000 ? sample : 4 * sample));
  expect(whereToListen(samples, WINDOW)).toEqual([[0, samples.length]]);
});

test('what is found in spans lies where they do', () => {
  const spans: [number, number][] = [
    [100, 200],
    [500, 700],
  ];
  expect(inWhole([[10, 20]], spans)).toEqual([[110, 120]]);
  expect(inWhole([[100, 110]], spans)).toEqual([[500, 510]]);
  expect(inWhole([[90, 130]], spans)).toEqual([
    [190, 200],
    [500, 530],
  ]);
  expect(inWhole([[0, 300]], spans)).toEqual(spans);
  expect(inWhole([], spans)).toEqual([]);
  // Every sample of a sound by the place it has among those listened to.
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.nat(60), { minLength: 2, maxLength: 12 }),
      fc.nat(70),
      fc.nat(20),
      (cuts, from, length) => {
        const edges = cuts.toSorted((a, b) => a - b);
        const pairs = edges.flatMap((edge, i): [number, number][] => (i % 2 === 1 ? [[edges[i - 1] ?? 0, edge]] : []));
        const heard = pairs.flatMap(([start, end]) => Array.from({ length: end - start }, (_, i) => start + i));
        const found = inWhole([[from, from + length]], pairs);
        expect(found.flatMap(([start, end]) => Array.from({ length: end - start }, (_, i) => start + i))).toEqual(
          heard.slice(from, from + length),
        );
      },
    ),
  );
});
