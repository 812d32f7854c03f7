import { describe, expect, test } from 'vitest';
import { blocksWithin, planLevelling } from '../../../src/core/media/index.ts';

// Loudness by ITU-R BS.1770-4: blocks of one level integrate to that level, whatever their number.
const blocks = (count: number, lufs: number) => new Array<number>(count).fill(lufs);

describe('levelling on speech', () => {
  const stretches = [{ blocks: [...blocks(100, -30), ...blocks(200, -14)], truePeak: -9 }];

  test('speech decides the gain; the whole programme is told beside it', () => {
    const found = planLevelling(stretches, -20, blocks(100, -30));
    expect(found).toMatchObject({ gain: 10, limit: true, truePeak: -9 });
    expect(found.loudness).toBeCloseTo(-30, 9);
    // The quiet third lies more than 10 LU below the mean, so that the gate leaves it out.
    expect(found.programme).toBeCloseTo(-14, 9);
  });

  test('without speech, or with less than five seconds of it, the whole decides', () => {
    for (const speech of [[], blocks(49, -30)])
      expect(planLevelling(stretches, -20, speech)).toEqual({
        gain: -6,
        limit: false,
        loudness: expect.closeTo(-14, 9),
        truePeak: -9,
      });
    expect(planLevelling(stretches, -20, blocks(50, -30)).gain).toBe(10);
  });

  test('blocks of 400 ms count where they lie whole within speech', () => {
    const rising = Array.from({ length: 30 }, (_, i) => i);
    // The block that ends 0.1 · (i + 1) s after the beginning has number i.
    expect(blocksWithin(rising, [[1, 1.6]])).toEqual([13, 14, 15]);
    expect(blocksWithin(rising, [[0, 0.5]])).toEqual([3, 4]);
    expect(blocksWithin(rising, [[1, 1.3]])).toEqual([]);
  });
});
