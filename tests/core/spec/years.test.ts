import { expect, test } from 'vitest';
import { parseYears, printYears, specsFor } from '../../../src/core/spec/index.ts';

const machine = { from: 2019, to: 2025 };

test.each([
  [2021, '2021'],
  ['2021', '2021'],
  ['2019-2021', '2019–2021'],
  ['2022-', '2022–2025'],
  ['-2021', '2019–2021'],
  [undefined, '2019–2025'],
])('years %s of a machine of 2019 to 2025 are %s', (written, printed) => {
  const read = parseYears(written, machine);
  expect(read.ok && printYears(read.value)).toBe(printed);
});

test.each(['21', '2021-2019', 'all', '2019..2021'])('%s are no years', (written) => {
  expect(parseYears(written, machine).ok).toBe(false);
});

test('rows are chosen by year, variant and region; what is not known keeps them all', () => {
  const row = (note: string, from: number, to: number, written: { variants?: string[]; regions?: string[] } = {}) => ({
    id: 'nut',
    note,
    years: { from, to },
    written,
  });
  const rows = [
    row('early', 2019, 2021),
    row('late', 2022, 2025, { variants: ['std'] }),
    row('late sport', 2022, 2025, { variants: ['sport'] }),
    { ...row('other', 2019, 2025), id: 'other' },
  ];
  const notes = (at: Parameters<typeof specsFor>[2]) => specsFor(rows, 'nut', at).map(({ note }) => note);
  expect(notes({})).toEqual(['early', 'late', 'late sport']);
  expect(notes({ year: 2020 })).toEqual(['early']);
  expect(notes({ year: 2023 })).toEqual(['late', 'late sport']);
  expect(notes({ year: 2023, variant: 'sport', region: 'EU' })).toEqual(['late sport']);
  expect(notes({ year: 2030 })).toEqual([]);
});
