import { expect, test } from 'vitest';
import { SOUND, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { parseYears, printYears, specsFor } from '../../../src/core/spec/index.ts';

const machine = { from: 2019, to: 2025 };

test.each([
  [2021, '2021'],
  ['2021', '2021'],
  ['2019-2021', '2019–2021'],
  ['2022-', '2022–2025'],
  ['-2021', '2019–2021'],
  // A bare -2021 in YAML is a number.
  [-2021, '2019–2021'],
  [undefined, '2019–2025'],
])('years %s of a machine of 2019 to 2025 are %s', (written, printed) => {
  const read = parseYears(written, machine);
  expect(read.ok && printYears(read.value)).toBe(printed);
});

test.each(['21', '2021-2019', 'all', '2019..2021'])('%s are no years', (written) => {
  expect(parseYears(written, machine).ok).toBe(false);
});

test('a span that is open to the past needs no quotes in YAML', () => {
  const table = (sampleContent(SOUND).texts.get('specs/tarn-420.yaml') ?? '').replace(
    '  - id: axle-nut',
    '  - id: early\n    title: Early\n    kind: length\n    max: 2\n    unit: mm\n    years: -2021\n  - id: axle-nut',
  );
  const { texts, facts } = sampleContent({ files: { 'specs/tarn-420.yaml': table } });
  const { shop, diagnostics } = readShop(texts, facts);
  expect(diagnostics.map(({ message }) => message)).toEqual([]);
  const [machine] = shop.machines;
  expect(machine?.specs.find(({ id }) => id === 'early')?.years).toEqual({ from: machine?.years.from, to: 2021 });
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
