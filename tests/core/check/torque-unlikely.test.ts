import { expect, test } from 'vitest';
import { axleNut, placesTold, SEQUENCE, told } from '../../support/told.ts';

const RULE = 'torque-unlikely';
const on = (size: string, ...row: readonly string[]) =>
  axleNut(`fastener: {size: ${size}, class: "8.8"}`, 'kind: torque', ...row);
const inNm = (value: string) => [value, 'unit: N·m'];

// F = T/(K·d) with K 0.2 (Shigley, 8-8); M8 has 36.6 mm², 8.8 a proof stress of 580 MPa (ISO 898-1:2013, tables 3 and 5).
test('says how much, and which units would explain it', () => {
  expect(told(RULE, on('M8', ...inNm('nominal: 200')))).toEqual([
    'warning | axle-nut: 200 N·m loads M8 8.8 to 589 % of its proof load, which is unusually high; 200 lbf·in would be 67 %, 200 kgf·cm would be 58 % | compare with the source; F = T/(K·d) = 200 N·m/(0.2 × 8 mm) = 125.0 kN, 589 % of the proof load of 21.2 kN (36.6 mm² of M8×1.25)',
  ]);
});

test('where no unit explains it, it ends there', () => {
  const [first] = told(RULE, on('M8', ...inNm('nominal: 98'), 'plusMinus: 5'));
  expect(first).toContain(
    '103 N·m loads M8 8.8 to 303 % of its proof load, which is unusually high | compare with the source; ',
  );
});

test('a row with an upper limit alone is judged by it, where it is written', () => {
  const row = on('M8', ...inNm('max: 98'));
  const [first] = told(RULE, row);
  expect(first).toContain('98 N·m loads M8 8.8 to 288 % of its proof load, which is unusually high | ');
  expect(placesTold(RULE, row)).toEqual(['specs/tarn-420.yaml:12:10']);
});

test('stages of a sequence, a size that no table holds, and a row that cannot be read are not judged', () => {
  expect(told(RULE, axleNut('fastener: {size: M6, class: "8.8"}', ...SEQUENCE))).toEqual([]);
  expect(told(RULE, on('M7.3', ...inNm('nominal: 900')))).toEqual([]);
  expect(told(RULE, on('M8', ...inNm('min: 900'), 'max: 800'))).toEqual([]);
});

// M14×1.5 8.8: π/4 · (14 − 0.9382 · 1.5)² = 124.55 mm², 580 MPa: 72.2 kN; 1 N·m is 357.1 N at K 0.2, so a share of 1 is
// 202.3 N·m. (ISO 898-1, Shigley table 8-15; see tests/reference/fasteners.)
test.each([
  [['max: 202'], 0],
  [['max: 203'], 1],
  [['nominal: 198', 'plusMinus: 4'], 0],
  [['nominal: 198', 'plusMinus: 5'], 1],
  [['nominal: 40.6'], 0],
  [['nominal: 40.3'], 1],
  // The middle counts where there is no nominal value.
  [['min: 35.6', 'max: 45.6'], 0],
  [['min: 35.2', 'max: 45.2'], 1],
  [['min: 40.6'], 0],
  [['min: 40.3'], 1],
])('%s N·m on M14×1.5', (row, count) => {
  expect(told(RULE, on('M14×1.5', ...row, 'unit: N·m'))).toHaveLength(count);
});

test('too much and too little are told apart', () => {
  expect(told(RULE, on('M14×1.5', ...inNm('nominal: 210')))[0]).toContain(
    '210 N·m loads M14×1.5 8.8 to 104 % of its proof load, which is unusually high',
  );
  expect(told(RULE, on('M14×1.5', ...inNm('nominal: 20')))[0]).toContain(
    '20 N·m loads M14×1.5 8.8 to 10 % of its proof load, which is unusually low',
  );
});

// In N·m (NIST SP 811, appendix B): lbf·ft 1.355 818, lbf·in 0.112 985, kgf·m 9.806 65, kgf·cm 0.098 067. On 1/2-13 of
// grade 5 a share of 1 is 0.1419 in² (ASME B1.1) · 85 000 psi (SAE J429) · 0.2 · 1/2 in = 1206 lbf·in = 136.3 N·m.
test.each([
  ['M14×1.5, class: "8.8"', '1200', 'N·m', '; 1200 lbf·in would be 67 %, 1200 kgf·cm would be 58 % | '],
  ['M14×1.5, class: "8.8"', '15', 'N·m', 'unusually low; 15 kgf·m would be 73 % | '],
  ['1/2-13, class: "5"', '60', 'lbf·in', 'unusually low; 60 N·m would be 44 %, 60 lbf·ft would be 60 % | '],
  [
    '1/2-13, class: "5"',
    '110',
    'lbf·ft',
    'unusually high; 110 N·m would be 81 % | compare with the source; F = T/(K·d) = 149 N·m/',
  ],
])('%s, %s %s: what another unit would come to', (fastener, value, unit, words) => {
  const row = axleNut(`fastener: {size: ${fastener}}`, 'kind: torque', `nominal: ${value}`, `unit: ${unit}`);
  expect(told(RULE, row)[0]).toContain(words);
});

test('another unit explains it where it would load the bolt to between 40 and 95 %', () => {
  // In lbf·in: 716 is 80.9 N·m, 40.0 %; 1701 is 192.2 N·m, 95.0 %.
  const explained = (value: number) => told(RULE, on('M14×1.5', ...inNm(`nominal: ${value}`)))[0];
  expect(explained(712)).not.toContain('lbf·in would be');
  expect(explained(720)).toContain('720 lbf·in would be 40 %');
  expect(explained(1695)).toContain('1695 lbf·in would be 95 %');
  expect(explained(1705)).not.toContain('lbf·in would be');
});

test('its own unit explains nothing, even where the middle of its limits would be right', () => {
  expect(told(RULE, on('M14×1.5', ...inNm('min: 100'), 'max: 210'))[0]).toContain('unusually high | compare');
});
