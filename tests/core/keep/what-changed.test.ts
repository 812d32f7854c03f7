import { expect, test } from 'vitest';
import { type KeptWords, whatChanged } from '../../../src/core/keep/index.ts';

const nut = { path: 'specs/tarn/#nut', title: 'Axle nut', text: '90 N·m', critical: true } as const;
const slack = { path: 'specs/tarn/#slack', title: 'Chain slack', whose: '2020 to 2026', text: '25–35 mm' };
const words = (values: KeptWords['values'], corrections: KeptWords['corrections'] = []): KeptWords => ({
  values,
  corrections,
});

test('what can hurt comes first, with what the copy says; what is the same is not told', () => {
  const later = words([
    { ...slack, text: '30–40 mm' },
    { ...nut, text: '95 N·m' },
  ]);
  expect(whatChanged(words([slack, nut]), later)).toEqual([
    { title: 'Axle nut', was: '90 N·m', now: '95 N·m', critical: true },
    { title: 'Chain slack, 2020 to 2026', was: '25–35 mm', now: '30–40 mm' },
  ]);
  expect(whatChanged(words([slack, nut]), words([nut, slack]))).toEqual([]);
});

test('a value that is no longer in the table, and one that came', () => {
  expect(whatChanged(words([nut]), words([slack]))).toEqual([
    { title: 'Axle nut', was: '90 N·m', critical: true },
    { title: 'Chain slack, 2020 to 2026', now: '25–35 mm' },
  ]);
});

test('a correction that the copy does not know, and one that reads otherwise now', () => {
  const first = { id: 'a', on: '2026-11-01', text: 'Tighten the nut: the recording says 19; Axle nut is 90 N·m' };
  const known = words([nut], [first]);
  expect(whatChanged(known, known)).toEqual([]);
  const told = { title: 'Correction of 2026-11-01', now: first.text };
  expect(whatChanged(words([nut]), known)).toEqual([told]);
  expect(whatChanged(known, words([nut], [{ ...first, text: 'otherwise' }]))).toEqual([{ ...told, now: 'otherwise' }]);
});
