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
import published from './fasteners.json' with { type: 'json' };

const INCH = 25.4;
const thread = (size: string) => {
  const read = parseThread(size);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};

// ISO 898-1:2013, tables of stress areas and minimum proof loads, coarse threads, through trade transcriptions.
// The printed loads are rounded unevenly, hence 0.6 %.
describe.each(published.iso898_1.coarse)(
  'ISO 898-1, $thread',
  ({ thread: size, pitchMm, stressAreaMm2, proofLoadN }) => {
    const read = thread(`${size}×${pitchMm}`);

    test(`stress area ${stressAreaMm2} mm²`, () => {
      expect(Math.abs(read.stressArea / stressAreaMm2 - 1)).toBeLessThan(published.iso898_1.relativeTolerance);
      expect(thread(size).stressArea).toBeCloseTo(read.stressArea, 6);
    });

    test.each(Object.entries(proofLoadN))('proof load of class %s is %d N', (strength, load) => {
      const area = Number(read.stressArea.toPrecision(3)); // as the table prints it
      const own = (proofStress(read, strength) ?? 0) * area;
      expect(Math.abs(own / load - 1)).toBeLessThan(published.iso898_1.relativeTolerance);
    });
  },
);

// SAE J429, through trade tables; where no load is printed the computed one.
describe.each(published.saeJ429.sizes)(
  'SAE J429, $thread',
  ({ thread: size, stressAreaIn2, proofLoadLbf, proofLoadComputedLbf }) => {
    const read = thread(size);

    test(`stress area ${stressAreaIn2} in²`, () => {
      expect(Math.abs(read.stressArea / INCH ** 2 / stressAreaIn2 - 1)).toBeLessThan(
        published.saeJ429.relativeTolerance,
      );
    });

    test.each(['5', '8'] as const)('proof load of grade %s', (grade) => {
      const load = (proofStress(read, `grade ${grade}`) ?? 0) * read.stressArea;
      const wanted = proofLoadLbf[grade] ?? proofLoadComputedLbf[grade];
      expect(Math.abs(convert(load, 'force', 'N', 'lbf') / wanted - 1)).toBeLessThan(0.01);
    });
  },
);

// T = K·d·F: Shigley, Mechanical Engineering Design, 9th ed., example 8-3 (b) and a trade table for 3/8-16 grade 5.
test.each(published.torqueExamples.filter((example) => example.K !== undefined))('$id', (example) => {
  const diameter = example.diameterMm ?? (example.diameterIn ?? 0) * INCH;
  const force = example.forceN ?? convert(example.forceLbf ?? 0, 'force', 'lbf', 'N');
  const torque = torqueFor(force, example.K ?? 0, diameter);
  if (example.torqueNm !== undefined) expect(torque).toBeCloseTo(example.torqueNm, 1);
  if (example.torqueLbfIn !== undefined)
    expect(convert(torque, 'torque', 'N·m', 'lbf·in')).toBeCloseTo(example.torqueLbfIn, 4);
  if (example.torqueLbfFt !== undefined)
    expect(convert(torque, 'torque', 'N·m', 'lbf·ft')).toBeCloseTo(example.torqueLbfFt, 1);
  expect(preload(torque, example.K ?? 0, diameter)).toBeCloseTo(force, 6);
});

// Shigley, Table 8-15.
test('nut factors of the handbook', () => {
  const table = new Map(published.nutFactors.handbookTable.map(({ condition, K }) => [condition, K]));
  expect(nutFactor('oiled')).toBe(table.get('lubricated'));
  expect(nutFactor('anti-seize')).toBe(table.get('anti-seize'));
  expect(nutFactor(undefined)).toBe(table.get('zinc-plated'));
});

test('75 % of proof load of an M10 8.8, dry, is 50.5 N·m, and loads it to 75 %', () => {
  expect(loading(50.55, { size: 'M10', class: '8.8' }, 'dry')?.share).toBeCloseTo(0.75, 2);
  expect(loading(50.55, { size: 'M10' }, 'dry')).toBeUndefined();
  expect(loading(50.55, { size: 'ten', class: '8.8' }, 'dry')).toBeUndefined();
});

// US Army TM 1-1500-204-23-9, fig. 8-16; TM 9-254, figs 4-5 and 4-6; aircraft and workshop manuals.
test.each(published.wrenchExtension)(
  '$torque $unit with $wrench and $extension in line is set to $setting',
  ({ torque, wrench, extension, setting, printed }) => {
    expect(wrenchSetting(torque, wrench, extension)).toBeCloseTo(setting, 2);
    if (printed !== null) expect(Math.abs(wrenchSetting(torque, wrench, extension) - printed)).toBeLessThan(0.51);
  },
);

test('a lever that is gone is refused', () => {
  expect(() => wrenchSetting(50, 10, -10)).toThrow(RangeError);
});

// ISO 6789: setting wrenches are tested from 20 % of their maximum.
test('a wrench of 10 to 60 N·m is used from 12 N·m', () => {
  expect(published.torqueTool.usableFrom).toBe(0.2);
  expect(usableRange({ min: 10, max: 60, unit: 'N·m' })).toEqual({ from: 12, to: 60, unit: 'N·m' });
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
