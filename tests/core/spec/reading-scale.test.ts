import fc from 'fast-check';
import { expect, test } from 'vitest';
import { judgeReading, readingScale } from '../../../src/core/spec/index.ts';

test('two limits have half of what lies between them on both sides', () => {
  // Invented: slack 25 to 35 mm, so the scale goes from 20 to 40 mm and its last tenths are 1 mm each.
  expect(readingScale({ min: 25, max: 35, unit: 'mm' }, 30)).toEqual({
    zones: [
      { verdict: 'out', from: 0, to: 0.25 },
      { verdict: 'near', from: 0.25, to: 0.3 },
      { verdict: 'in', from: 0.3, to: 0.7 },
      { verdict: 'near', from: 0.7, to: 0.75 },
      { verdict: 'out', from: 0.75, to: 1 },
    ],
    limits: [
      { value: 25, at: 0.25 },
      { value: 35, at: 0.75 },
    ],
    reading: { at: 0.5, beyond: false },
  });
});

test('a limit that stands alone has its scale too; a reading past its end stays on it and says so', () => {
  const thin = readingScale({ min: 1.5, unit: 'mm' }, 0.2);
  expect(thin?.zones.map(({ verdict }) => verdict)).toEqual(['out', 'near', 'in']);
  expect(thin?.limits[0]?.at).toBeCloseTo(1 / 3);
  expect(thin?.reading).toEqual({ at: 0, beyond: true });
  expect(readingScale({ max: 0, unit: 'mm' }, 2)?.reading).toEqual({ at: 1, beyond: true });
  expect(readingScale({ max: 322, unit: 'mm' }, 322)?.reading?.at).toBeCloseTo(2 / 3);
  expect(readingScale({ nominal: 3, unit: 'mm' }, 3)).toBeUndefined();
});

test('wherever a reading stands, the zone under it has the verdict it gets', () => {
  const amounts = fc.oneof(
    fc.record({ min: fc.integer({ min: 1, max: 500 }) }),
    fc.record({ max: fc.integer({ min: 1, max: 500 }) }),
    fc
      .tuple(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 1, max: 300 }))
      .map(([min, room]) => ({ min, max: min + room })),
  );
  fc.assert(
    fc.property(amounts, fc.integer({ min: 1, max: 999 }), (limits, thousandth) => {
      const amount = { ...limits, unit: 'mm' };
      const [low, high] = [readingScale(amount, -1e9), readingScale(amount, 1e9)];
      expect([low?.reading?.at, high?.reading?.at]).toEqual([0, 1]);
      const scale = readingScale(amount);
      const [first, second] = scale?.limits ?? [];
      if (!scale || !first) throw new Error('there are limits');
      // From the limits' own places back to the unit.
      const perScale = second ? (second.value - first.value) / (second.at - first.at) : Math.abs(first.value) * 0.6;
      const at = thousandth / 1000;
      if (scale.zones.some(({ from, to }) => Math.abs(at - from) < 1e-6 || Math.abs(at - to) < 1e-6)) return;
      const value = first.value + (at - first.at) * perScale;
      const under = scale.zones.find(({ from, to }) => from < at && at < to);
      expect(under?.verdict).toBe(judgeReading(value, amount));
    }),
  );
});
