import { describe, expect, test } from 'vitest';
import { labelsOf, writeMoment } from '../../../src/core/edit/index.ts';
import { FRAME_RATES, fromSeconds, measuredGrid, parseTimecode, ticks } from '../../../src/core/time/index.ts';

// A phone's pictures: due every 0.04 s at 25, taken late now and then. A label is written only where reading it back
// gives the very moment; elsewhere the clock time is, so that nothing of the cut is shown.
const RATE = FRAME_RATES['25'];
const at = (seconds: number) => fromSeconds<'recording'>(seconds);
const GRID = measuredGrid([0, 0.04, 0.1, 0.17, 0.2].map(at), at(0.24));
const uneven = labelsOf({ rate: RATE, startFrame: 0, grid: GRID });
const LIKE = '00:00:10:00';

/** The moment that a written label stands for: the start of the picture shown then, or the end of the one before. */
function readBack(label: string, leaning: 'start' | 'end'): number {
  const frame = parseTimecode(label, RATE);
  if (!frame.ok) throw new Error(frame.problem);
  const moment = ticks<'recording'>(frame.value * RATE.ticksPerFrame);
  return leaning === 'start' ? GRID.shown(moment) : GRID.ended(moment);
}

describe('a moment of uneven pictures, where the file speaks timecode', () => {
  test.each([
    [0, 'start'],
    [0.04, 'start'],
    [0.1, 'start'],
    [0.17, 'start'],
    [0.2, 'start'],
    [0.04, 'end'],
    [0.1, 'end'],
    [0.17, 'end'],
    [0.2, 'end'],
  ] as const)('%d s as a %s is a label only if it is read back as that moment', (seconds, leaning) => {
    const written = writeMoment(at(seconds), leaning, uneven, LIKE);
    if (/^\d\d:\d\d:\d\d[:;]\d\d$/.test(written)) expect(readBack(written, leaning)).toBe(at(seconds));
    else expect(written).toMatch(/^0:00:00(\.\d+)?$/);
  });

  test('both happen: a label where it serves, a clock time where none does', () => {
    // 0.17 s lies in label 4 and the picture shown at label 5 (0.2 s) is another.
    expect(writeMoment(at(0.04), 'start', uneven, LIKE)).toBe('00:00:00:01');
    expect(writeMoment(at(0.17), 'start', uneven, LIKE)).toBe('0:00:00.17');
  });

  test('even pictures have a label each', () => {
    const even = labelsOf({ rate: RATE, startFrame: 0 });
    expect(writeMoment(at(0.16), 'start', even, LIKE)).toBe('00:00:00:04');
    expect(writeMoment(at(0.16), 'end', even, LIKE)).toBe('00:00:00:04');
  });

  test('without a rate there is no label', () => {
    expect(writeMoment(at(0.16), 'start', labelsOf(undefined), LIKE)).toBe('0:00:00.16');
  });
});
