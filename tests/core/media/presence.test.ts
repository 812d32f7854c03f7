import fc from 'fast-check';
import { expect, test } from 'vitest';
import { blocksWithin, presenceOf } from '../../../src/core/media/index.ts';
import { editList, range, runtime, ticks } from '../../../src/core/time/index.ts';
import { at, edit } from '../../support/edit.ts';

const ranges = (list: string) => edit(list).map(({ start, end }) => range(start, end));
const bounds = (list: ReturnType<typeof edit>) => list.map(({ start, end }) => range(start, end));

test('talk wins over sound, sound and movement over stillness', () => {
  const { talk, work, nobody } = presenceOf(at(60), ranges('10-20'), ranges('8-25 40-42'), ranges('0-30 41-50'));
  expect(bounds(talk)).toEqual(ranges('10-20'));
  expect(bounds(nobody)).toEqual(ranges('0-8 25-30 42-50'));
  expect(bounds(work)).toEqual(ranges('8-10 20-25 30-42 50-60'));
});

test('what lies beyond the end of the recording does not count', () => {
  const { talk, work, nobody } = presenceOf(at(15), ranges('10-20'), [], ranges('0-99'));
  expect([bounds(talk), bounds(work), bounds(nobody)]).toEqual([ranges('10-15'), [], ranges('0-10')]);
  expect(presenceOf(ticks(0), [], [], [])).toEqual({ talk: [], work: [], nobody: [] });
});

test('every moment is one of the three, and one alone', () => {
  const list = fc.array(
    fc
      .tuple(fc.integer({ min: 0, max: 90 }), fc.integer({ min: 1, max: 30 }))
      .map(([from, long]) => range(at(from), at(from + long))),
  );
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 100 }), list, list, list, (length, talk, sound, still) => {
      const found = presenceOf(at(length), talk, sound, still);
      const all = [...found.talk, ...found.work, ...found.nobody];
      expect(all.reduce((sum, one) => sum + one.end - one.start, 0)).toBe(at(length));
      expect(runtime(editList(all))).toBe(at(length));
    }),
  );
});

// ITU-R BS.1770: blocks of 400 ms that overlap by 75 %, so that a new one ends every 100 ms.
test('the loudness of speech is that of the blocks that lie whole within it', () => {
  const blocks = Array.from({ length: 50 }, (_, i) => i);
  // Block i ends at (i + 1) / 10 s: the one that begins at 1.0 s is number 13, the one that ends at 2.0 s number 19.
  expect(blocksWithin(blocks, [[1, 2]])).toEqual([13, 14, 15, 16, 17, 18, 19]);
  expect(blocksWithin(blocks, [[1.01, 1.99]])).toEqual([14, 15, 16, 17, 18]);
  expect(blocksWithin(blocks, [[0, 0.45]])).toEqual([3]);
  expect(
    blocksWithin(blocks, [
      [1, 1.3],
      [4.5, 99],
    ]),
  ).toEqual([48, 49]);
});
