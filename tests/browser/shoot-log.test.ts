import fc from 'fast-check';
import jsqr from 'jsqr';
import { encode } from 'uqr';
import { expect, test } from 'vitest';
import { codesOf, tapsOfCode, tapsOfJson } from '../../src/browser/shoot-log/codes.ts';
import { takenInWords, tapsInFiles } from '../../src/browser/shoot-log/take-in.ts';
import {
  loadKept,
  type PhoneState,
  storeKept,
  type Tap,
  takenIn,
  waitingTaps,
} from '../../src/browser/shoot-log/taps.ts';
import { type Link, whereTapsAre } from '../../src/browser/shoot-log/words.ts';

const tap = (id: string, lesson = 'pads', at = 1_795_000_000_000): Tap => ({
  id,
  lesson,
  at,
  kind: 'begin',
  step: 'put-the-bike-on-its-stand',
  take: 1,
});
const none: PhoneState = { shots: [], taps: [], waiting: [] };

test('"in the cutting room" is said only when nothing waits, "kept on this phone" only when it is', () => {
  for (const link of ['there', 'away', 'refused', 'failing'] as Link[])
    for (const waiting of [0, 1, 3])
      for (const stored of [true, false]) {
        const words = whereTapsAre({ link, waiting, stored, problem: 'the disk of the cutting room is full' });
        const state = { link, waiting, stored, words };
        expect({ ...state, said: /Everything/.test(words) }).toEqual({
          ...state,
          said: waiting === 0 && link !== 'refused',
        });
        expect({ ...state, said: /kept on this phone/.test(words) }).toEqual({ ...state, said: waiting > 0 && stored });
        expect({ ...state, said: /this page only/.test(words) }).toEqual({ ...state, said: waiting > 0 && !stored });
        expect(words).not.toMatch(/nothing is lost/i);
      }
});

test.each([
  ['there', 2, true, '2 taps wait; they are kept on this phone.'],
  ['away', 1, true, '1 tap waits for the network; it is kept on this phone.'],
  ['away', 0, true, 'The cutting room does not answer. Everything tapped so far is in it.'],
  ['failing', 1, true, '1 tap waits: no room; it is kept on this phone.'],
  ['refused', 0, true, 'Not sent any more: no room. Scan a new code from the cutting room.'],
] as const)('%s, %i waiting, stored %s: %s', (link, waiting, stored, words) => {
  expect(whereTapsAre({ link, waiting, stored, problem: 'no room' })).toBe(words);
});

test('a phone that keeps nothing says so, and what an older page kept gets its lesson', () => {
  const full = {
    setItem: () => {
      throw new DOMException('full', 'QuotaExceededError');
    },
  };
  expect(storeKept(full, none)).toBe(false);
  let text = '';
  expect(
    storeKept(
      {
        setItem: (_, value) => {
          text = value;
        },
      },
      { ...none, lesson: 'pads', taps: [tap('a')], waiting: ['a'] },
    ),
  ).toBe(true);
  expect(loadKept({ getItem: () => text }).taps).toEqual([tap('a')]);
  const old = '{"lesson":"chain","shots":[],"waiting":["a"],"taps":[{"id":"a","at":1,"kind":"clap"}]}';
  expect(loadKept({ getItem: () => old }).taps).toEqual([{ id: 'a', lesson: 'chain', at: 1, kind: 'clap' }]);
  for (const damaged of ['{', 'null', '[]', '7']) expect(loadKept({ getItem: () => damaged })).toEqual(none);
});

test('taps taken in wait once, in order of time; those that were there already do not wait again', () => {
  const confirmed: PhoneState = { ...none, taps: [tap('a', 'pads', 5)] };
  const more = takenIn(confirmed, [tap('b', 'chain', 3), tap('a', 'pads', 5)]);
  expect(more.taps.map(({ id }) => id)).toEqual(['b', 'a']);
  expect(waitingTaps(more).map(({ id }) => id)).toEqual(['b']);
});

test('any number of taps comes back from codes, in any order, each code by itself', async () => {
  await fc.assert(
    fc.asyncProperty(fc.uniqueArray(fc.string({ minLength: 1, maxLength: 20 }), { maxLength: 120 }), async (ids) => {
      const taps = ids.map((id, i) => tap(id, i % 2 ? 'pads' : 'chain', 1_795_000_000_000 + i * 977));
      const codes = await codesOf(taps);
      const read = (await Promise.all(codes.toReversed().map(tapsOfCode))).flat();
      expect(new Set(read.map((each) => JSON.stringify(each)))).toEqual(
        new Set(taps.map((each) => JSON.stringify(each))),
      );
      expect(read).toHaveLength(taps.length);
      for (const code of codes) expect(code.length).toBeLessThanOrEqual(700);
    }),
    { numRuns: 30 },
  );
});

// Decoded by another library than the one that draws them.
test('a code as it is shown is read by a QR reader', async () => {
  const taps = Array.from({ length: 60 }, (_, i) => tap(`tap-${i}`, 'pads', 1_795_000_000_000 + i * 31_337));
  const codes = await codesOf(taps);
  expect(codes.length).toBeGreaterThan(1);
  const found: Tap[] = [];
  for (const code of codes) {
    const { data, size } = encode(code, { border: 4, ecc: 'M' });
    const side = size * 4;
    const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
    for (let y = 0; y < side; y++)
      for (let x = 0; x < side; x++)
        if (data[y >> 2]?.[x >> 2]) pixels.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
    found.push(...((await tapsOfCode(jsqr(pixels, side, side)?.data ?? '')) ?? []));
  }
  expect(found).toEqual(taps);
});

test('what is no code and no file of taps is told by name', async () => {
  expect(await tapsOfCode('https://example.org')).toBeUndefined();
  expect(await tapsOfCode('liftside-taps-1:%%%')).toBeUndefined();
  for (const text of ['', '{}', '[1]', '[{"id":"a"}]']) expect(tapsOfJson(text)).toBeUndefined();
  const files = [
    new File([JSON.stringify([tap('a'), tap('b')])], 'taps.json', { type: 'application/json' }),
    new File(['x'], 'other.json', { type: 'application/json' }),
    new File([''], 'blurred.png', { type: 'image/png' }),
  ];
  const read = await tapsInFiles(files, async () => async () => undefined);
  expect(read.taps.map(({ id }) => id)).toEqual(['a', 'b']);
  expect(takenInWords(read)).toMatch(/^2 taps were read. No taps were found in other.json, blurred.png:/);
});
