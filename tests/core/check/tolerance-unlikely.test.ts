import { expect, test } from 'vitest';
import { axleNut, told } from '../../support/told.ts';

const RULE = 'tolerance-unlikely';
const HELP = 'compare value and tolerance with the source; look at the decimal point';

// The shares themselves are common practice, no source; held from both sides in likely.test.ts.
test.each([
  [['kind: torque', 'nominal: 98', 'plusMinus: 50', 'unit: N·m'], 'the tolerance of 98 ± 50 N·m is 51 % of the value'],
  [
    ['kind: torque', 'nominal: 98', 'plusMinus: 0.5', 'unit: N·m'],
    'the tolerance of 98.0 ± 0.5 N·m is 0.51 % of the value, tighter than a torque wrench is',
  ],
  [['kind: torque', 'min: 98', 'max: 98', 'unit: N·m'], 'the tolerance is nought: nothing could be right'],
  [['kind: torque', 'min: 9', 'max: 98', 'unit: N·m'], 'of 9–98 N·m the upper limit is 11 times the lower'],
])('%j', (row, words) => {
  expect(told(RULE, axleNut(...row)).map((each) => each.replace(/^\w+ \| /, ''))).toEqual([
    `axle-nut: ${words} | ${HELP}`,
  ]);
});

test('a tolerance far from that of the value before is told with both', () => {
  const row = ['kind: torque', 'nominal: 98', 'plusMinus: 3', 'unit: N·m', 'history:'];
  const before = '  - {until: 2026-01-01, bulletin: A letter, nominal: 98, plusMinus: 40, unit: N·m}';
  expect(told(RULE, axleNut(...row, before))).toEqual([
    expect.stringMatching(/^warning \| axle-nut: the tolerance of 98 ± 3 N·m is far from that of .+, 98 ± 40 N·m \|/),
  ]);
});
