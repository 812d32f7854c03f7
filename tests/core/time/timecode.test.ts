import { describe, expect, test } from 'vitest';
import {
  FRAME_RATES,
  frameAt,
  frameStart,
  framesBetween,
  framesPerDay,
  parseClockTime,
  parseTimecode,
  printTimecode,
  timecodeAt,
} from '../../../src/core/time/index.ts';

const DF = FRAME_RATES['29.97df'];
const DF60 = FRAME_RATES['59.94df'];
const refusal = (text: string, rate: (typeof FRAME_RATES)['24']) => {
  const read = parseTimecode(text, rate);
  return read.ok ? 'read' : [read.problem, read.help];
};

// SMPTE ST 12-1: labels ;00 and ;01 (at 59.94 up to ;03) of each minute are left out, but not of every tenth.
describe('which labels drop-frame leaves out', () => {
  for (let minute = 0; minute < 60; minute++)
    test(`minute ${minute}`, () => {
      const at = `00:${String(minute).padStart(2, '0')}:00;0`;
      const kept = minute % 10 === 0;
      for (const [frame, legal] of [
        [0, kept],
        [1, kept],
        [2, true],
      ] as const)
        expect(parseTimecode(`${at}${frame}`, DF).ok, `${at}${frame}`).toBe(legal);
      for (const [frame, legal] of [
        [3, kept],
        [4, true],
      ] as const)
        expect(parseTimecode(`${at}${frame}`, DF60).ok, `${at}${frame}`).toBe(legal);
      // Only the first second of a minute is short.
      expect(parseTimecode(`${at.slice(0, 6)}01;00`, DF).ok).toBe(true);
    });

  test('the first label after a minute is the one after the last before it', () => {
    for (let minute = 1; minute < 60; minute++) {
      const label = (second: string) => `00:${second};`;
      const before = parseTimecode(`${label(`${String(minute - 1).padStart(2, '0')}:59`)}29`, DF);
      const first = `${label(`${String(minute).padStart(2, '0')}:00`)}${minute % 10 === 0 ? '00' : '02'}`;
      expect(before.ok && printTimecode(before.value + 1, DF)).toBe(first);
      expect(parseTimecode(first, DF)).toEqual({ ok: true, value: before.ok ? before.value + 1 : -1 });
    }
  });
});

describe('what is refused, and what is said', () => {
  test.each(['1:00:00:00', '01:00:00', '01:00:00.00', ' 01:00:00:00', '01:00:00:00 ', '01:00:00:000', 'soon'])(
    '"%s" is no timecode',
    (text) =>
      expect(refusal(text, FRAME_RATES['25'])).toEqual([
        `"${text}" is not a timecode`,
        'a timecode reads hh:mm:ss:ff, with ; before the frames when drop-frame',
      ]),
  );
  test('drop-frame at a rate that has none', () => {
    expect(refusal('00:01:00;02', FRAME_RATES['25'])).toEqual([
      '"00:01:00;02" is written as drop-frame, but 25 counts no drop-frame',
      'write 00:01:00:02; only 29.97 and 59.94 have a drop-frame count',
    ]);
    expect(refusal('00:01:00;02', FRAME_RATES['29.97'])).toEqual([
      '"00:01:00;02" is written as drop-frame, but 29.97 counts no drop-frame',
      'write 00:01:00:02, or give the rate as 29.97df',
    ]);
    expect(refusal('00:01:00;02', FRAME_RATES['59.94'])[1]).toBe('write 00:01:00:02, or give the rate as 59.94df');
  });
  test('hours, minutes, seconds and frames one past their last, and read at their last', () => {
    const at25 = (text: string) => refusal(text, FRAME_RATES['25']);
    expect(at25('23:59:59:24')).toBe('read');
    expect(at25('24:00:00:00')).toEqual([
      '"24:00:00:00" has hour 24; a day has hours 00 to 23',
      'timecode starts again after 24 hours; the nearest labels are 23:59:59:24 and 00:00:00:00',
    ]);
    expect(at25('00:60:00:00')).toEqual([
      '"00:60:00:00": minutes go from 0 to 59',
      'minutes and seconds go from 00 to 59; the nearest labels are 00:59:59:24 and 01:00:00:00',
    ]);
    expect(at25('00:59:60:00')).toEqual([
      '"00:59:60:00": seconds go from 0 to 59',
      'minutes and seconds go from 00 to 59; the nearest labels are 00:59:59:24 and 01:00:00:00',
    ]);
    expect(at25('00:12:60:00')).toEqual([
      '"00:12:60:00": seconds go from 0 to 59',
      'minutes and seconds go from 00 to 59; the nearest labels are 00:12:59:24 and 00:13:00:00',
    ]);
    expect(at25('00:00:00:25')).toEqual([
      '"00:00:00:25" has frame 25; at 25 frames go from 00 to 24',
      'the nearest labels are 00:00:00:24 and 00:00:01:00',
    ]);
  });
  test('a label that is left out', () =>
    expect(refusal('00:01:00;01', DF)).toEqual([
      '"00:01:00;01" is a label that drop-frame leaves out',
      'the nearest labels are 00:00:59;29 and 00:01:00;02',
    ]));
  test('a colon before the frames is read at a drop-frame rate too', () =>
    expect(parseTimecode('00:10:00:00', DF)).toEqual({ ok: true, value: 17_982 }));
});

describe('counting', () => {
  // W3C TTML2, ttp:dropMode: dropped = (hours · 54 + minutes − ⌊minutes / 10⌋) · 2, from the labels as they are counted.
  test.each([
    ['02:29:59;29', (2 * 3600 + 29 * 60 + 59) * 30 + 29 - 2 * (2 * 54 + 29 - 2)],
    ['23:59:59;29', (23 * 3600 + 59 * 60 + 59) * 30 + 29 - 2 * (23 * 54 + 59 - 5)],
  ])('%s is frame %d', (label, frame) => {
    expect(parseTimecode(label, DF)).toEqual({ ok: true, value: frame });
    expect(printTimecode(frame, DF)).toBe(label);
  });
  // 24 h · 3600 s · nominal, less 2 (4) labels in 54 minutes of each hour.
  test.each([
    ['25', 2_160_000],
    ['29.97df', 2_589_408],
    ['59.94df', 5_178_816],
    ['29.97', 2_592_000],
  ] as const)('a day at %s has %d labels, and starts again after the last, either way', (name, labels) => {
    const rate = FRAME_RATES[name];
    expect(framesPerDay(rate)).toBe(labels);
    expect(printTimecode(labels, rate)).toBe(printTimecode(0, rate));
    expect(printTimecode(-1, rate)).toBe(printTimecode(labels - 1, rate));
    expect(printTimecode(-labels, rate)).toBe(printTimecode(0, rate));
  });
  test('from one label to another, past midnight too', () => {
    const day = framesPerDay(DF);
    expect(framesBetween(10, 25, DF)).toBe(15);
    expect(framesBetween(day - 5, 10, DF)).toBe(15);
    expect(framesBetween(7, 7, DF)).toBe(0);
    expect(framesBetween(8, 7, DF)).toBe(day - 1);
  });
  test('the frame at a moment, and the moment of a frame', () => {
    const { ticksPerFrame } = DF;
    expect([0, ticksPerFrame - 1, ticksPerFrame].map((moment) => frameAt(moment, DF))).toEqual([0, 0, 1]);
    expect(frameStart(3, DF)).toBe(3 * ticksPerFrame);
    expect(timecodeAt(1800 * ticksPerFrame, DF)).toBe('00:01:00;02');
    expect(timecodeAt(1800 * ticksPerFrame, DF, 107_892)).toBe('01:01:00;02');
  });
});

// 2^53 ticks are 3 545 hours: more digits than that were once no time that could be told, and ended the check.
test.each(['9999:00:00', '1000:00:00', 'soon'])('"%s" is no clock time', (text) => {
  expect(parseClockTime(text)).toMatchObject({ ok: false, problem: `"${text}" is not a time` });
});
