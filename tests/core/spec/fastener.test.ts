import { describe, expect, test } from 'vitest';
import {
  convert,
  loading,
  loadingInWords,
  nutFactor,
  parseThread,
  preload,
  proofStress,
  torqueFor,
} from '../../../src/core/spec/index.ts';

const thread = (size: string) => {
  const read = parseThread(size);
  if (!read.ok) throw new Error(read.problem);
  return read.value;
};
const psi = (stress: number | undefined) => Math.round(convert(stress ?? 0, 'pressure', 'MPa', 'psi'));

// Coarse pitches: ISO 261 (from memory above M16).
test.each([
  [3, 0.5],
  [4, 0.7],
  [5, 0.8],
  [6, 1],
  [8, 1.25],
  [10, 1.5],
  [12, 1.75],
  [14, 2],
  [16, 2],
  [18, 2.5],
  [20, 2.5],
  [22, 2.5],
  [24, 3],
])('M%d has a coarse pitch of %d mm', (diameter, pitch) => {
  expect(thread(`M${diameter}`)).toEqual(thread(`M${diameter}×${pitch}`));
  expect(thread(`M${diameter}`)).toMatchObject({ name: `M${diameter}×${pitch}`, diameter, system: 'metric' });
});

// Stress areas: ISO 898-1, π/4 · (d − 0.9382 P)²; SAE J429's tables follow 0.7854 · (D − 0.9743/n)².
test.each([
  ['M10', 57.99],
  ['M10.5×1.5', 64.94],
  ['M10×1.25', 61.2],
  ['3/8-16', 0.0775 * 25.4 ** 2],
  ['1-8', 0.606 * 25.4 ** 2],
  ['1 1/8-7', 0.763 * 25.4 ** 2],
])('the stress area of %s is %d mm²', (size, area) =>
  expect(Math.abs(thread(size).stressArea / area - 1)).toBeLessThan(0.002),
);

describe('ways to write a thread', () => {
  test.each(['M10×1.25', 'M10x1.25', 'm10 X 1.25', ' M 10*1.25 ', 'M10×1.25×30', 'M10 x 1.25 x 30'])('%s', (written) =>
    expect(thread(written)).toMatchObject({ name: 'M10×1.25', diameter: 10 }),
  );
  test.each([
    ['3/8-16', 0.375],
    ['3/8"-16', 0.375],
    ['3/8″ - 16 UNC', 0.375],
    ['1/4-28 unf', 0.25],
    ['1 1/8-7', 1.125],
    ['1-1/8-7', 1.125],
    ['1-8', 1],
    ['1"-14 UNS', 1],
    ['1-12 UNF', 1],
    [' 1 - 8UN ', 1],
    ['12 1/2-4', 12.5],
    ['3/8-16UNC', 0.375],
    [' 3/8 - 16  UNC ', 0.375],
  ])('%s is %d in', (written, inches) => {
    const { diameter, system } = thread(written);
    expect(diameter).toBeCloseTo(inches * 25.4, 9);
    expect(system).toBe('inch');
  });
  test.each([
    'M13',
    'M',
    '10',
    'M10×5',
    'M10×6',
    'x3/8-16',
    '3/8-16x',
    'M10×1.25mm',
    '1-8x',
    'x1-8',
    '11-8',
    'M1x',
    'M10.',
    '1-64',
    '1-1',
    '2-56',
    '3/8',
  ])('%s is refused', (written) => {
    const read = parseThread(written);
    expect(read.ok).toBe(false);
    expect(read.ok ? '' : read.problem).toContain(written);
  });
  test('a pitch short of half the diameter is read', () => expect(thread('M10×4.9').name).toBe('M10×4.9'));
  test('what to write is said', () => {
    expect(parseThread('M13')).toMatchObject({ help: 'write it as M13×pitch' });
    expect(parseThread('ten')).toMatchObject({ help: 'a size reads M10×1.25, M8, 3/8-16 or 1/4-28' });
  });
  test('an inch thread keeps the name it was written with', () =>
    expect(thread(' 3/8-16 UNC ').name).toBe('3/8-16 UNC'));
});

describe('proof stress: each class to the end of its sizes', () => {
  // ISO 898-1:2013; 4.8, 5.8, 9.8 and what lies above 16 mm from memory. SAE J429.
  test.each([
    ['4.8', 'M8', 310],
    ['5.8', 'M8', 380],
    ['8.8', 'M16', 580],
    ['8.8', 'M17×1', 600],
    ['8.8', 'M100×6', 600],
    ['8.8', 'M101×6', undefined],
    ['9.8', 'M16', 650],
    ['9.8', 'M17×1', undefined],
    ['10.9', 'M100×6', 830],
    ['12.9', 'M100×6', 970],
    ['class 8.8', 'M8', 580],
    [' class  8.8 ', 'M8', 580],
    ['class8.8', 'M8', 580],
    ['no class 8.8', 'M8', undefined],
    ['Class 12.9', 'M8', 970],
    ['6.8', 'M8', undefined],
    ['5', 'M8', undefined],
  ] as const)('%s, %s', (strength, size, stress) => expect(proofStress(thread(size), strength)).toBe(stress));

  test.each([
    ['2', '3/4-10', 55_000],
    ['2', '13/16-12', 0],
    ['5', '1-8', 85_000],
    ['5', '1 1/16-8', 74_000],
    ['5', '1 1/2-6', 74_000],
    ['5', '1 9/16-8', 0],
    ['8', '1 1/2-6', 120_000],
    ['grade 8', '3/8-16', 120_000],
    ['8.8', '3/8-16', 0],
  ] as const)('grade %s, %s', (grade, size, stress) => expect(psi(proofStress(thread(size), grade))).toBe(stress));
});

test('nut factors by condition', () => {
  expect((['dry', 'oiled', 'greased', 'anti-seize', 'threadlocker'] as const).map(nutFactor)).toEqual([
    0.2, 0.18, 0.18, 0.12, 0.2,
  ]);
  expect(nutFactor(undefined)).toBe(0.2);
});

test('T = K·d·F both ways', () => {
  // 20 kN at K 0.2 on 10 mm: 0.2 · 0.01 m · 20 000 N = 40 N·m.
  expect(torqueFor(20_000, 0.2, 10)).toBe(40);
  expect(preload(40, 0.2, 10)).toBe(20_000);
});

describe('loading', () => {
  // M10: 57.99 mm² · 580 MPa = 33.6 kN; 50.45 N·m over 0.2 · 10 mm is 25.2 kN.
  test('of an M10 8.8 at 75 % of its proof load, dry', () => {
    const found = loading(50.45, { size: 'M10', class: '8.8' }, 'dry');
    expect(found?.proofLoad).toBeCloseTo(580 * thread('M10').stressArea, 6);
    expect(found?.preload).toBeCloseTo(25_225, 6);
    expect(found?.share).toBeCloseTo(0.75, 3);
    expect(found?.factor).toBe(0.2);
  });
  test('in one line of arithmetic', () =>
    expect(loadingInWords(50.45, loading(50.45, { size: 'M10', class: '8.8' }, 'dry')!)).toBe(
      'F = T/(K·d) = 50.5 N·m/(0.2 × 10 mm) = 25.2 kN, 75 % of the proof load of 33.6 kN (58 mm² of M10×1.5)',
    ));
  test('is not known without a class, a size or a class of the tables', () => {
    expect(loading(50, { size: 'M10' }, 'dry')).toBeUndefined();
    expect(loading(50, { size: 'ten', class: '8.8' }, 'dry')).toBeUndefined();
    expect(loading(50, { size: 'M10', class: '7.7' }, 'dry')).toBeUndefined();
  });
});
