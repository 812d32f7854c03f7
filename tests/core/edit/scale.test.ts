import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  buildPeaks,
  framing,
  levelFor,
  lineOf,
  momentAt,
  scroll,
  showing,
  wholeScale,
  zoom,
} from '../../../src/core/edit/index.ts';
import { rulerStep } from '../../../src/core/edit/scale.ts';
import { at } from './support.ts';

const LENGTH = at(3 * 3600);

test('zooming keeps the line under the hand where it is, and never leaves the recording', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.2, max: 8, noNaN: true }),
      fc.integer({ min: 0, max: 800 }),
      fc.nat(40),
      (factor, line, times) => {
        let scale = wholeScale(LENGTH, 800);
        for (let n = 0; n < times; n++) scale = zoom(scale, 1.4, 400, LENGTH, 800);
        const before = momentAt(scale, line, LENGTH);
        const after = zoom(scale, factor, line, LENGTH, 800);
        expect(after.top).toBeGreaterThanOrEqual(0);
        expect(after.top + 800 * after.ticksPerLine).toBeLessThanOrEqual(LENGTH * (1 + 1e-9));
        const free = after.top > 0 && after.top + 800 * after.ticksPerLine < LENGTH - 1;
        if (free) expect(Math.abs(lineOf(after, before) - line)).toBeLessThan(0.01);
      },
    ),
  );
});

test('the closest look has two dozen lines for a frame; scrolling stops at both ends', () => {
  let scale = wholeScale(LENGTH, 800);
  for (let n = 0; n < 60; n++) scale = zoom(scale, 2, 10, LENGTH, 800);
  expect(at(1) / 60 / scale.ticksPerLine).toBeCloseTo(24, 6);
  expect(scroll(scale, -1e12, LENGTH, 800).top).toBe(0);
  expect(scroll(scale, 1e12, LENGTH, 800).top).toBeCloseTo(LENGTH - 800 * scale.ticksPerLine, 0);
});

test('a moment out of sight is brought in, one in sight moves nothing', () => {
  const scale = framing(at(600), at(700), LENGTH, 800);
  expect(showing(scale, at(650), LENGTH, 800)).toBe(scale);
  expect(lineOf(showing(scale, at(5000), LENGTH, 800), at(5000))).toBeCloseTo(200, 6);
  expect(rulerStep(scale, 64)).toBe(10);
});

test('every level of the waveform holds the lowest and highest of what it stands for', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: -128, max: 0 }), fc.integer({ min: 0, max: 127 })), {
        minLength: 1,
        maxLength: 200,
      }),
      (pairs) => {
        const { levels } = buildPeaks(Int8Array.from(pairs.flat()), 100);
        for (const [n, level] of levels.entries())
          for (let i = 0; i < level.length / 2; i++) {
            const under = pairs.slice(i * 2 ** n, (i + 1) * 2 ** n);
            expect([level[i * 2], level[i * 2 + 1]]).toEqual([
              Math.min(...under.map(([low]) => low)),
              Math.max(...under.map(([, high]) => high)),
            ]);
          }
      },
    ),
    { numRuns: 50 },
  );
  const peaks = buildPeaks(new Int8Array(3 * 3600 * 200), 100);
  expect(levelFor(peaks, 13.5).secondsPerPair).toBeLessThanOrEqual(13.5);
  expect(levelFor(peaks, 0.0001).secondsPerPair).toBe(0.01);
});
