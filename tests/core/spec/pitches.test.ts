import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { pitchesListedInstead } from '../../../src/core/spec/index.ts';

interface Table {
  readonly coarse?: readonly { readonly thread: string; readonly pitchMm: number }[];
  readonly sizes?: readonly { readonly thread: string }[];
}
const tables: Record<string, Table> = JSON.parse(readFileSync('tests/reference/fasteners.json', 'utf8'));

test('the threads of the tables of ISO 898-1 and SAE J429 are listed', () => {
  const printed = [
    ...(tables['ISO 898-1:2013, tables 3 and 5']?.coarse ?? []).map(({ thread, pitchMm }) => `${thread}×${pitchMm}`),
    ...(tables['SAE J429, 2014, tables 1 and 2']?.sizes ?? []).map(({ thread }) => thread),
  ];
  expect(printed.length).toBeGreaterThan(20);
  expect(printed.filter((thread) => pitchesListedInstead(thread) !== undefined)).toEqual([]);
});

// Fine pitches of ISO 261 that workshops meet, from memory: brake hoses, axles, spark plugs, oil drains.
test.each(['M10×1', 'M10 x 1.25', 'M9×1', 'M12*1.25', 'M14×1.25', 'M14×1.5 LH', 'M18×1.5', 'M36×1.5'])(
  '%s is listed',
  (thread) => {
    expect(pitchesListedInstead(thread)).toBeUndefined();
  },
);

test.each([
  ['M8×1.2', 'ISO 261 has M8 with 1.25, 1 or 0.75 mm'],
  ['M8×1.5', 'ISO 261 has M8 with 1.25, 1 or 0.75 mm'],
  ['M10x1.52', 'ISO 261 has M10 with 1.5, 1.25, 1 or 0.75 mm'],
  ['M6×1.25', 'ISO 261 has M6 with 1 or 0.75 mm'],
  ['M14×1.75 LH', 'ISO 261 has M14 with 2, 1.5, 1.25 or 1 mm'],
  ['3/8-25', 'ASME B1.1 has 3/8 with 16 or 24 threads an inch'],
  ['1/4-26 UN', 'ASME B1.1 has 1/4 with 20 or 28 threads an inch'],
])('%s is not', (thread, says) => {
  expect(pitchesListedInstead(thread)).toBe(says);
});

// The constant-pitch and extra fine series of ASME B1.1, from memory; sizes that are in no table; no pitch.
test.each(['3/8-20 UN', '3/8-32 UNEF', '1/2-28', 'M13×1.2', 'M8', '1 3/8-13', 'G 1/4', 'ten'])(
  'of %s nothing is told',
  (thread) => {
    expect(pitchesListedInstead(thread)).toBeUndefined();
  },
);
