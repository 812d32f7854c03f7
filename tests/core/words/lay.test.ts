import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  evenedOut,
  HEARD_RATE,
  LOOK,
  layingText,
  layText,
  lookAt,
  NUMBERS,
  readScript,
  timeWords,
} from '../../../src/core/words/index.ts';

/** Chords that stand for syllables: each letter sounds for `seconds`. */
function sung(letters: string, seconds: number): Float32Array {
  const long = Math.round(seconds * HEARD_RATE);
  const samples = new Float32Array(letters.length * long);
  [...letters].forEach((letter, i) => {
    const at = letter.charCodeAt(0) - 97;
    const tones = [300 + 130 * at, 900 + 211 * ((at * 7) % 13), 2100 + 170 * ((at * 5) % 11)];
    for (let n = 0; n < long; n++)
      for (const tone of tones)
        samples[i * long + n] = (samples[i * long + n] ?? 0) + 0.1 * Math.sin((2 * Math.PI * tone * n) / HEARD_RATE);
  });
  return samples;
}

/** Where the pieces come to lie, s, when the voice sings them at one pace and the sound at another. */
function laid(pieces: readonly string[], sound: string, slower = 1.3) {
  const parts = pieces.map((piece) => lookAt(sung(piece, 0.3)));
  let sum = 0;
  const ends = parts.map(({ length }) => (sum += length / NUMBERS));
  const { at, costs } = layText(evenedOut(parts), ends, evenedOut([lookAt(sung(sound, 0.3 * slower))]));
  const spans = pieces.map((_, i) => {
    const own = [...at.subarray(i === 0 ? 0 : ends[i - 1], ends[i])].filter((look) => look >= 0);
    return own.length === 0 ? undefined : [own[0]! * LOOK, own.at(-1)! * LOOK];
  });
  return { spans, costs: [...costs] };
}
/** Off by less than a letter. */
const near = (span: number[] | undefined, from: number, until: number, letter = 0.39) => {
  expect(span).toBeDefined();
  expect(Math.abs(span![0]! - from * letter)).toBeLessThan(letter);
  expect(Math.abs(span![1]! - until * letter)).toBeLessThan(letter);
};

describe('pieces of a text on a sound', () => {
  test('slower than the voice', () => {
    const { spans } = laid(['abcdef', 'ghijk', 'lmbdfa'], 'abcdefghijklmbdfa');
    near(spans[0], 0, 6);
    near(spans[1], 6, 11);
    near(spans[2], 11, 17);
  });

  test('what has left the reach is out of reach, and no later moment takes it up again', () => {
    // Looks that have nothing in common, drawn by seed.
    let seed = 1;
    const noise = (count: number) =>
      Float32Array.from({ length: count * NUMBERS }, () => {
        seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
        return seed / 2 ** 31 - 1;
      });
    const looks = (values: Float32Array) => ({ values, count: values.length / NUMBERS });
    const [size, pieces, foreign] = [10, 40, 40];
    const text = noise(pieces * size);
    const ends = Array.from({ length: pieces }, (_, i) => (i + 1) * size);
    // Behind each piece comes what is not in the text: to pass over pieces from long ago would cost less than to lay them.
    const parts = ends.map((end) => [...text.slice((end - size) * NUMBERS, end * NUMBERS), ...noise(foreign)]);
    const laying = layingText(looks(text), ends, looks(Float32Array.from(parts.flat())), 30);
    let next = laying.next();
    while (!next.done) next = laying.next();
    expect([...next.value.at]).toEqual(
      Array.from({ length: text.length / NUMBERS }, (_, look) => look + foreign * Math.floor(look / size)),
    );
  });

  test('what is spoken between them belongs to none', () => {
    const { spans } = laid(['abcdef', 'ghijk'], 'abcdefmlmlmlmlghijk');
    near(spans[0], 0, 6);
    near(spans[1], 14, 19);
  });

  test('a piece that is not spoken is passed over, or costs as much as what belongs to nothing', () => {
    const { spans, costs } = laid(['abcdef', 'mlmlmlml', 'ghijk'], 'abcdefghijk');
    near(spans[0], 0, 6);
    near(spans[2], 6, 11);
    expect(spans[1] === undefined || costs[1]! >= 0.9).toBe(true);
    expect(costs[0]).toBeLessThan(0.6);
  });

  test('nothing at all: no sound, no text', () => {
    expect(laid(['abc'], '').spans).toEqual([undefined]);
    expect(layText(evenedOut([]), [], evenedOut([lookAt(sung('abc', 0.3))])).at).toHaveLength(0);
  });

  test('any order of letters is laid in order, within the sound', () => {
    const word = fc.string({ unit: fc.constantFrom(...'abcdefghijklm'), minLength: 2, maxLength: 5 });
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 4 }), (pieces) => {
        const { spans } = laid(pieces, pieces.join(''), 1);
        let last = 0;
        for (const span of spans) {
          if (!span) continue;
          expect(span[0]).toBeGreaterThanOrEqual(last);
          expect(span[1]).toBeLessThanOrEqual(pieces.join('').length * 0.3);
          last = span[1]!;
        }
      }),
      { numRuns: 20 },
    );
  });
});

test('words have their share of a sentence by their letters; over a pause they lie where most of them is', () => {
  const sentences = readScript('a bbb. cc');
  // Ten looks for the first sentence, the last six of them in another part of the sound, 10 s later.
  const at = Int32Array.from([0, 1, 2, 3, 10, 11, 12, 13, 14, 15, -1, -1]);
  const { words, missing } = timeWords(sentences, [10, 12], { at, costs: Float64Array.of(0.5, Number.NaN) }, [
    { start: 5, looks: 10 },
    { start: 15, looks: 30 },
  ]);
  // "a" weighs 2 of 6: looks 0 to 2, in the first part only for 0.16 s: a crumb. So the sentence begins after the pause.
  expect(words.map(({ text, start }) => [text, Number(start.toFixed(2))])).toEqual([
    ['a', 15],
    ['bbb.', 15],
  ]);
  expect(words.map(({ ends }) => ends)).toEqual([false, true]);
  expect(missing.map(({ words: left }) => left)).toEqual([['cc']]);
});

test.each([
  [0.94, 0],
  [0.95, 1],
  [1, 1],
])('a sentence that costs %f of what belongs to nothing is missing %i times', (cost, times) => {
  const laid = { at: Int32Array.from([0, 1, 2, 3]), costs: Float64Array.of(cost) };
  expect(timeWords(readScript('Hello there.'), [4], laid, [{ start: 0, looks: 4 }]).missing).toHaveLength(times);
});
