import { describe, expect, test } from 'vitest';
import {
  convert,
  likelySlip,
  loading,
  nutFactor,
  parseThread,
  preload,
  proofStress,
  torqueFor,
  usableRange,
  wrenchSetting,
} from '../../src/core/spec/index.ts';
import { published } from '../support/published.ts';
import copied from './fasteners.json' with { type: 'json' };

const reference = published(copied);
const ISO_898 = reference.values['ISO 898-1:2013, tables 3 and 5'];
const J429 = reference.values['SAE J429, 2014, tables 1 and 2'];
const SHIGLEY = "Shigley's Mechanical Engineering Design, 9th ed., 2011";

const INCH = 25.4;
const thread = (size: string) => {
  const read = parseThread(size);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};

describe('ISO 898-1', () => {
  test.each(ISO_898.coarse)('stress area and proof loads of $thread', (row) => {
    const read = thread(`${row.thread}×${row.pitchMm}`);
    expect(Math.abs(read.stressArea / row.stressAreaMm2 - 1)).toBeLessThan(ISO_898.relativeTolerance);
    expect(thread(row.thread).stressArea).toBeCloseTo(read.stressArea, 6);
    const area = Number(read.stressArea.toPrecision(3)); // as the table prints it
    for (const { class: strength, load } of row.proofLoadN) {
      const own = (proofStress(read, strength) ?? 0) * area;
      expect(Math.abs(own / load - 1), strength).toBeLessThan(ISO_898.relativeTolerance);
    }
  });

  test.each(ISO_898.proofStressMPa)('proof stress of class $class at $size', ({ class: strength, size, stress }) => {
    expect(proofStress(thread(size), strength)).toBe(stress);
  });
});

describe('SAE J429', () => {
  test.each(J429.sizes)('stress area and proof loads of $thread', (row) => {
    const read = thread(row.thread);
    expect(read.diameter).toBeCloseTo(row.diameterIn * INCH, 9);
    expect(Math.abs(read.stressArea / INCH ** 2 / row.stressAreaIn2 - 1)).toBeLessThan(J429.relativeTolerance);
    for (const { grade, load } of row.proofLoadLbf) {
      const own = (proofStress(read, `grade ${grade}`) ?? 0) * read.stressArea;
      expect(Math.abs(convert(own, 'force', 'N', 'lbf') / load - 1), grade).toBeLessThan(J429.relativeTolerance);
    }
  });

  test.each(J429.proofStressPsi)('proof stress of grade $grade up to $upToIn', ({ grade, upToIn, stress }) => {
    const own = proofStress(thread(upToIn), grade) ?? 0;
    expect(convert(own, 'pressure', 'MPa', 'psi')).toBeCloseTo(stress, 6);
  });
});

test('T = K·d·F of the handbook', () => {
  const { K, forceLbf, diameterIn, torqueLbfIn } = reference.values[`${SHIGLEY}, example 8-3 (b)`];
  const force = convert(forceLbf, 'force', 'lbf', 'N');
  const torque = torqueFor(force, K, diameterIn * INCH);
  expect(convert(torque, 'torque', 'N·m', 'lbf·in')).toBeCloseTo(torqueLbfIn, 4);
  expect(preload(torque, K, diameterIn * INCH)).toBeCloseTo(force, 6);
});

test('nut factors of the handbook', () => {
  const table = new Map(reference.values[`${SHIGLEY}, table 8-15`].map(({ condition, K }) => [condition, K]));
  expect(nutFactor('oiled')).toBe(table.get('lubricated'));
  expect(nutFactor('greased')).toBe(table.get('lubricated'));
  expect(nutFactor('anti-seize')).toBe(table.get('anti-seize'));
  expect(nutFactor(undefined)).toBe(table.get('zinc-plated'));
});

test('75 % of proof load of an M10 8.8, dry, is 50.5 N·m, and loads it to 75 %', () => {
  expect(loading(50.55, { size: 'M10', class: '8.8' }, 'dry')?.share).toBeCloseTo(0.75, 2);
  expect(loading(50.55, { size: 'M10' }, 'dry')).toBeUndefined();
  expect(loading(50.55, { size: 'ten', class: '8.8' }, 'dry')).toBeUndefined();
});

describe('a wrench with an extension in line is set as the tables print', () => {
  const tables = [
    'US Army TM 1-1500-204-23-9, figure 8-16 (edition not known)',
    'US Army TM 9-254, figures 4-5 and 4-6 (edition not known)',
    'FAA AC 43.13-1B, 1998, figure 7-2',
  ] as const;
  test.each(tables)('%s', (source) => {
    for (const { torque, unit, wrench, extension, printed } of reference.values[source]) {
      expect(['lbf·in', 'lbf·ft']).toContain(unit);
      expect(Math.round(wrenchSetting(torque, wrench, extension))).toBe(printed);
    }
  });
});

test('a lever that is gone is refused', () => {
  expect(() => wrenchSetting(50, 10, -10)).toThrow(RangeError);
});

test('a wrench of 10 to 60 N·m is used from 12 N·m', () => {
  const { lowestTestPointOfMaximum } = reference.values['ISO 6789-1:2017, test points (clause not known)'];
  const from = 60 * lowestTestPointOfMaximum;
  expect(usableRange({ min: 10, max: 60, unit: 'N·m' })).toEqual({ from, to: 60, unit: 'N·m' });
});

test.each([
  [98, 72.28, 'torque', 'lbf·ft', 'N·m'],
  [10, 120, 'torque', 'lbf·ft', 'lbf·in'],
  [33, 227.5, 'pressure', 'kPa', 'psi'],
  [0.7, 17.78, 'length', 'in', 'mm'],
  [9.99, 98, 'torque', 'N·m', 'kgf·m'],
] as const)('%d for %d of %s looks like a slip between units', (value, other, kind, meant, taken) => {
  const slip = likelySlip(value, other, kind);
  expect([slip?.meant, slip?.taken].toSorted()).toEqual([meant, taken].toSorted());
});

test('a value that is merely wrong is no slip', () => {
  expect(likelySlip(98, 90, 'torque')).toBeUndefined();
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
