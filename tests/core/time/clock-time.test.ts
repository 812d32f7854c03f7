import { expect, test } from 'vitest';
import {
  parseClockTime,
  printClockTime,
  printSignedTime,
  TICKS_PER_SECOND,
  twoDigits,
} from '../../../src/core/time/index.ts';

test.each([
  ['0:03:10.5', 190.5],
  ['3:10', 190],
  ['3:10,25', 190.25],
  ['59:59', 3599],
  ['100:00:00', 360_000],
])('%s is %d s', (text, seconds) => {
  expect(parseClockTime(text)).toEqual({ ok: true, value: seconds * TICKS_PER_SECOND });
});

test.each([
  ['0:60:00', '"0:60:00": minutes go from 0 to 59'],
  ['60:00', '"60:00": minutes go from 0 to 59'],
  ['0:59:60', '"0:59:60": seconds go from 0 to 59'],
])('%s is refused: %s', (text, problem) => {
  expect(parseClockTime(text)).toEqual({ ok: false, problem, help: 'minutes and seconds go from 00 to 59' });
});

test.each(['', '10', '1:2', ':10', '1000:00:00', '0:00.', '0:00.1234567890', ' 0:00', '0:00x'])(
  '%j is no time',
  (text) => {
    expect(parseClockTime(text)).toEqual({
      ...{ ok: false, problem: `"${text}" is not a time` },
      help: 'a time reads h:mm:ss or h:mm:ss.fraction, like 0:03:10.5',
    });
  },
);

test('times are written to the millisecond, without noughts at the end', () => {
  const print = (seconds: number) => printClockTime(seconds * TICKS_PER_SECOND);
  expect([0, 59.9994, 59.9996, 61.05, 3600.5, 36_000].map(print)).toEqual([
    ...['0:00:00', '0:00:59.999', '0:01:00', '0:01:01.05', '1:00:00.5', '10:00:00'],
  ]);
  expect([-1.5, 0, 1.5].map((seconds) => printSignedTime(seconds * TICKS_PER_SECOND))).toEqual([
    ...['-0:00:01.5', '0:00:00', '0:00:01.5'],
  ]);
  expect([0, 9, 10].map(twoDigits)).toEqual(['00', '09', '10']);
});
