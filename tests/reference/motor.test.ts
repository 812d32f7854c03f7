import { describe, expect, test } from 'vitest';
import { convert, intervalDue, judgeReading, readDateCode } from '../../src/core/spec/index.ts';
import published from './motor.json' with { type: 'json' };

// 49 CFR 574.5(b)(3); 0109 is the regulation's own example.
describe('tyre date codes', () => {
  test.each(published.tyreDateCode.examples)('$code is $from to $to', ({ code, week, year, from, to }) => {
    expect(readDateCode(code)).toEqual({ ok: true, value: { week, year, from, to } });
  });

  test.each(published.tyreDateCode.invalid)('%s is refused', (code) => {
    expect(readDateCode(code).ok).toBe(false);
  });

  test('three digits never give an age', () => {
    const read = readDateCode(published.tyreDateCode.ambiguous.code);
    expect(!read.ok && read.problem).toMatch(/before 2000/);
  });
});

// 49 CFR 571.116, S5.1.1 and S5.1.2: each published pair is an exact pair of °C and °F.
test.each(published.brakeFluidMinBoilingPoint)('$grade', ({ dryC, dryF, wetC, wetF }) => {
  expect([convert(dryC, 'temperature', '°C', '°F'), convert(wetC, 'temperature', '°C', '°F')]).toEqual([dryF, wetF]);
});

// 49 CFR 571.119, S6.4: 1/32 in.
test('the tread wear indicator is 0.8 mm high', () => {
  const { exactMm, motorcycleMm } = published.treadwearIndicator;
  expect(convert(1 / 32, 'length', 'in', 'mm')).toBe(exactMm);
  expect(judgeReading(0.7, { min: motorcycleMm, unit: 'mm' })).toBe('out');
  expect(judgeReading(0.85, { min: motorcycleMm, unit: 'mm' })).toBe('near');
  expect(judgeReading(4, { min: motorcycleMm, unit: 'mm' })).toBe('in');
});

// Roller-chain makers' guides: 20 pitches of 5/8 in are 317.5 mm new, 327.03 mm at 3 %.
test.each(published.chainWear.lengths)('chain over $pitches pitches', ({ pitches, newMm, at3PercentMm }) => {
  expect(convert((pitches * 5) / 8, 'length', 'in', 'mm')).toBe(newMm);
  expect(judgeReading(at3PercentMm + 0.1, { max: at3PercentMm, unit: 'mm' })).toBe('out');
});

describe('readings and intervals (common practice, no source)', () => {
  test.each([
    [24.9, 'out'],
    [25.5, 'near'],
    [30, 'in'],
    [34.5, 'near'],
    [35.1, 'out'],
  ])('%d mm of 25 to 35 mm is %s', (reading, verdict) => {
    expect(judgeReading(reading, { min: 25, max: 35, unit: 'mm' })).toBe(verdict);
  });

  test('a value that is only aimed at has no verdict', () => {
    expect(judgeReading(5, { nominal: 5, unit: 'mm' })).toBeUndefined();
  });

  const fluid = { distance: { nominal: 20_000, unit: 'km' }, time: { nominal: 2, unit: 'year' } };
  test('whichever comes first', () => {
    const since = { odometer: 1000, day: '2024-02-29' };
    expect(intervalDue(fluid, since, { odometer: 9000, day: '2026-02-27' })).toEqual({
      distanceLeft: 12_000,
      daysLeft: 1,
      dueOn: '2026-02-28',
      due: false,
    });
    expect(intervalDue(fluid, since, { odometer: 9000, day: '2026-02-28' }).due).toBe(true);
    expect(intervalDue(fluid, since, { odometer: 21_000, day: '2025-01-01' }).due).toBe(true);
  });
});
