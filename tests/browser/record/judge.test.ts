import { expect, test } from 'vitest';
import { judge } from '../../../src/browser/record/judge.ts';

// Invented limits: two rows of one machine that differ by its year.
const ROWS = [
  { machine: 'tarn', from: 2019, to: 2021, amount: { min: 25, max: 35, unit: 'mm' }, shown: '25–35 mm' },
  { machine: 'tarn', from: 2022, to: 2025, amount: { min: 30, max: 40, unit: 'mm' }, shown: '30–40 mm' },
];

test('a reading is held against the rows of the named machine only', () => {
  expect(judge(27, { rows: ROWS }, { machine: 'tarn', year: 2020 })).toMatchObject({
    verdict: 'in',
    limits: '25–35 mm',
  });
  expect(judge(27, { rows: ROWS }, { machine: 'tarn', year: 2023 })).toMatchObject({
    verdict: 'out',
    limits: '30–40 mm',
  });
  expect(judge(34.9, { rows: ROWS }, { machine: 'tarn', year: 2020 }).verdict).toBe('near');
});

test('where limits differ and the year is unknown, nothing is judged that would be wrong for one of them', () => {
  expect(judge(27, { rows: ROWS }, undefined)).toMatchObject({ limits: '25–35 mm or 30–40 mm' });
  expect(judge(27, { rows: ROWS }, undefined).verdict).toBeUndefined();
  expect(judge(27, { rows: ROWS }, undefined).words).toContain('depends on the year');
  // Both agree.
  expect(judge(33, { rows: ROWS }, undefined).verdict).toBe('in');
  expect(judge(50, { rows: ROWS }, { machine: 'tarn' }).verdict).toBe('out');
});

test('no row of the machine, no verdict', () => {
  expect(judge(33, { rows: ROWS }, { machine: 'tarn', year: 2010 })).toEqual({
    limits: '',
    words: 'The table gives no limit for your machine.',
  });
});
