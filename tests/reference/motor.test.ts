import { describe, expect, test } from 'vitest';
import { convert, intervalDue, judgeReading, readDateCode } from '../../src/core/spec/index.ts';
import { published } from '../support/published.ts';
import copied from './motor.json' with { type: 'json' };

const reference = published(copied);
const TYRES = reference.values['49 CFR 574.5, rule of 1999, paragraph (b)(3)'];

describe('tyre date codes', () => {
  // 0109 is the regulation's own example.
  test.each(TYRES.examples)('$code is $from to $to', ({ code, week, year, from, to }) => {
    expect(readDateCode(code)).toEqual({ ok: true, value: { week, year, from, to } });
  });

  test('what is no week of a year is refused', () => {
    for (const code of TYRES.invalid) expect(readDateCode(code).ok, code).toBe(false);
  });

  test('three digits never give an age', () => {
    const read = readDateCode(TYRES.beforeYear2000);
    expect(!read.ok && read.problem).toMatch(/before 2000/);
  });
});

test.each(reference.values['49 CFR 571.116, S5.1.1 and S5.1.2 (edition not known)'])(
  '$grade: each published pair is an exact pair of °C and °F',
  ({ grade, dryC, dryF, wetC, wetF }) => {
    const inF = [convert(dryC, 'temperature', '°C', '°F'), convert(wetC, 'temperature', '°C', '°F')];
    expect(inF, grade).toEqual([dryF, wetF]);
  },
);

test('the tread wear indicator is 1/32 in high, 0.8 mm', () => {
  const { exactMm, motorcycleMm } = reference.values['49 CFR 571.119, S6.4 (edition not known)'];
  expect(convert(1 / 32, 'length', 'in', 'mm')).toBe(exactMm);
  expect(judgeReading(0.7, { min: motorcycleMm, unit: 'mm' })).toBe('out');
  expect(judgeReading(0.85, { min: motorcycleMm, unit: 'mm' })).toBe('near');
  expect(judgeReading(4, { min: motorcycleMm, unit: 'mm' })).toBe('in');
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

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
