import fc from 'fast-check';
import { expect, test } from 'vitest';
import { labelsOf, nextShuttleSpeed, onFrame, timecodeAt, writeMoment } from '../../../src/core/edit/index.ts';
import { FRAME_RATES, frameStart, parseClockTime, RATE_NAMES, ticks } from '../../../src/core/time/index.ts';

const written = (text: string) => {
  const found = parseClockTime<'recording'>(text);
  if (!found.ok) throw new Error(found.problem);
  return found.value;
};

test('frame 1 at 29.97 starts at 33.37 ms: a start is written up, an end down', () => {
  const one = frameStart<'recording'>(1, FRAME_RATES['29.97']);
  expect(writeMoment(one, 'start', undefined)).toBe('0:00:00.034');
  expect(writeMoment(one, 'end', undefined)).toBe('0:00:00.033');
});

test('every frame of every rate comes back from what was written, as start and as end', () => {
  fc.assert(
    fc.property(fc.constantFrom(...RATE_NAMES), fc.nat(1_000_000), (name, frame) => {
      const rate = FRAME_RATES[name];
      const at = frameStart<'recording'>(frame, rate);
      const start = written(writeMoment(at, 'start', undefined));
      const end = written(writeMoment(at, 'end', undefined));
      const { grid } = labelsOf({ rate, startFrame: 0 });
      expect([grid.nearest(start), grid.nearest(end)]).toEqual([at, at]);
      expect(Math.floor(start / rate.ticksPerFrame)).toBe(frame);
      expect(Math.ceil(end / rate.ticksPerFrame)).toBe(frame);
      expect([grid.shown(start), grid.ended(end)]).toEqual([at, at]);
      expect(start).toBeGreaterThanOrEqual(end);
    }),
  );
});

test('a file that speaks timecode is answered in timecode', () => {
  const rate = FRAME_RATES['29.97df'];
  const labels = labelsOf({ rate, startFrame: 107892 });
  expect(writeMoment(frameStart(1800, rate), 'start', labels, '01:00:10;00')).toBe('01:01:00;02');
  expect(writeMoment(ticks(0), 'start', labels, '0:00:10')).toBe('0:00:00');
  expect(timecodeAt(0, labels)).toBe('01:00:00;00');
});

test('the playhead stands on the first tick of the frame shown', () => {
  const rate = FRAME_RATES['25'];
  expect(onFrame(frameStart(7, rate) + 5, labelsOf({ rate, startFrame: 0 }))).toBe(frameStart(7, rate));
});

// The shuttle keys run faster with each press and slow down against the way. Common practice, no source.
test.each([
  [0, 1, 1],
  [1, 1, 1.5],
  [1.5, 1, 2],
  [2, 1, 4],
  [16, 1, 16],
  [4, -1, 2],
  [1, -1, -1],
  [-1, 1, 1],
  [0, -1, -1],
  [-2, -1, -4],
] as const)('at %d× the key for %d gives %d×', (speed, way, next) => {
  expect(nextShuttleSpeed(speed, way)).toBe(next);
});
