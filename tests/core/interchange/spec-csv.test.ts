import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { stringify } from 'csv-stringify/sync';
import { expect, test } from 'vitest';
import { mergeSpecTable, specTable } from '../../../src/core/interchange/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

const source = readFileSync('content/specs/tarn-420.yaml', 'utf8');
const read = (text: string) => {
  const [machine] = readShop(new Map([['specs/tarn-420.yaml', text]]), () => ({ state: 'missing' })).shop.machines;
  if (!machine) throw new Error('the table cannot be read');
  return machine;
};
const machine = read(source);

test('a table that went through a spreadsheet unchanged changes nothing', () => {
  const rows: string[][] = parse(stringify(specTable(machine), { bom: true }), { bom: true });
  const merged = mergeSpecTable(source, machine, rows);
  expect(merged).toEqual({ ok: true, value: { text: source, notes: [] } });
});

test('a changed cell changes its line alone, in the row of its years', () => {
  const rows = specTable(machine);
  const at = rows.findIndex((row) => row[0] === 'rear-axle-nut' && row.includes('2022-2025'));
  rows[at] = rows[at]!.map((cell) => (cell === '98' ? '110' : cell));
  const merged = mergeSpecTable(source, machine, rows);
  if (!merged.ok) throw new Error(merged.problem);
  expect(merged.value.text).toBe(source.replace('nominal: 98', 'nominal: 110'));
});

test('a row that is missing stays, a new one is added, and both are told', () => {
  const rows = specTable(machine).filter(([id]) => id !== 'kerb-mass');
  const fresh = rows[0]!.map(
    (name) =>
      ({ id: 'fork-oil', title: 'Fork oil', kind: 'volume', nominal: '480', unit: 'mL', document: 'service-manual' })[
        name
      ] ?? '',
  );
  const merged = mergeSpecTable(source, machine, [...rows, fresh]);
  if (!merged.ok) throw new Error(merged.problem);
  expect(merged.value.notes).toEqual([expect.stringContaining('fork-oil'), 'not in the file, and kept: kerb-mass']);
  const again = read(merged.value.text);
  expect(again.specs.at(-1)?.quantity).toEqual({ kind: 'volume', amount: { nominal: 480, unit: 'mL' } });
  expect(again.specs.length).toBe(machine.specs.length + 1);
});

test('what cannot be read is refused with its row', () => {
  const merged = mergeSpecTable(source, machine, [
    ['id', 'nominal'],
    ['kerb-mass', 'heavy'],
  ]);
  expect(merged).toMatchObject({ ok: false, problem: 'row 2, nominal: "heavy" is not a number' });
  expect(mergeSpecTable(source, machine, [['id', 'weight']])).toMatchObject({
    ok: false,
    problem: 'no column "weight"',
  });
});

test('two rows of one spec are refused, and many new rows are put in at once', () => {
  const [names = [], first = []] = specTable(machine);
  expect(mergeSpecTable(source, machine, [names, first, first])).toMatchObject({
    ok: false,
    problem: `rows 2 and 3 are the same spec: ${first[0]}`,
  });
  const fresh = Array.from({ length: 300 }, (_, n) => [`bolt-${n}`, 'Bolt', 'mass', '1', 'g']);
  const merged = mergeSpecTable(source, machine, [['id', 'title', 'kind', 'nominal', 'unit'], ...fresh]);
  if (!merged.ok) throw new Error(merged.problem);
  expect(merged.value.text.match(/id: bolt-\d+/g)).toHaveLength(300);
  expect(merged.value.text.indexOf('bolt-7')).toBeLessThan(merged.value.text.indexOf('bolt-8'));
  expect(mergeSpecTable(source, machine, [['id'], ...Array(5_001).fill(['x'])])).toMatchObject({ ok: false });
});
