import { expect, test } from 'vitest';
import { rulerMarks, timecodeAt } from '../../../src/core/edit/index.ts';
import { evenGrid, FRAME_RATES, parseTimecode, TICKS_PER_SECOND } from '../../../src/core/time/index.ts';

const labelsOf = (name: keyof typeof FRAME_RATES, start: string) => {
  const rate = FRAME_RATES[name];
  const frame = parseTimecode(start, rate);
  return { rate, startFrame: frame.ok ? frame.value : 0, grid: evenGrid(rate), uneven: false };
};
/** Twenty minutes in 400 lines: marks five minutes apart or more. */
const scale = { top: 0, ticksPerLine: 3 * TICKS_PER_SECOND };

// Drop-frame leaves out labels 00 and 01 of each minute but every tenth (SMPTE ST 12-1).
test.each([
  ['29.97df', '01:00:00;00', ['01:00:00;00', '01:05:00;02', '01:10:00;00', '01:15:00;02']],
  ['59.94df', '01:00:00;00', ['01:00:00;00', '01:05:00;04', '01:10:00;00', '01:15:00;04']],
  ['29.97', '02:00:00:00', ['02:00:00:00', '02:05:00:00', '02:10:00:00', '02:15:00:00']],
  ['25', '09:58:30:00', ['10:00:00:00', '10:05:00:00', '10:10:00:00', '10:15:00:00']],
] as const)('at %s from %s the ruler writes whole minutes of the timecode', (name, start, wanted) => {
  const labels = labelsOf(name, start);
  const marks = rulerMarks(scale, 400, 64, labels);
  expect(marks.map((at) => timecodeAt(at, labels)).slice(0, 4)).toEqual(wanted);
  expect(marks.every((at) => at >= 0 && at <= 400 * scale.ticksPerLine)).toBe(true);
});

test('in the middle of a recording the marks are those that are seen; without a rate they are seconds', () => {
  const labels = labelsOf('29.97df', '00:00:00;00');
  const close = { top: 1000 * TICKS_PER_SECOND, ticksPerLine: TICKS_PER_SECOND / 64 };
  // 1000 s are 29 970.03 frames: label 00:16:40;00 and what follows, second by second.
  const marks = rulerMarks(close, 128, 64, labels).map((at) => timecodeAt(at, labels));
  expect(marks).toContain('00:16:40;00');
  expect(marks).toContain('00:16:41;00');
  const { rate: _, ...bare } = labels;
  expect(rulerMarks(scale, 400, 64, bare).map((at) => at / TICKS_PER_SECOND)).toEqual([0, 300, 600, 900, 1200]);
});
