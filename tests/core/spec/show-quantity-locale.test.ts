import { expect, test } from 'vitest';
import type { Locale } from '../../../src/core/locale/index.ts';
import { type Quantity, showQuantity } from '../../../src/core/spec/index.ts';

const german: Locale = {
  tag: 'de',
  messages: {
    'at most {value}': 'höchstens {value}',
    '{value} at most': 'höchstens {value}',
    '{value}, at most {limit}': '{value}, höchstens {limit}',
    '{from} to {to}': '{from} bis {to}',
    'every {first} or {second}, whichever comes first': 'alle {first} oder {second}, je nachdem, was zuerst kommt',
    months: 'Monate',
  },
};
const shown = (quantity: Quantity) => {
  const { primary, secondary } = showQuantity(quantity, ['metric', 'us'], german);
  return secondary === undefined ? primary : `${primary} | ${secondary}`;
};

// ISO 80000-1:2009, 7.3.2: the decimal sign is a comma or a point on the line, digits are grouped by a small space.
test('a value keeps every figure, written with the decimal sign of the language', () => {
  expect(shown({ kind: 'torque', amount: { nominal: 24.5, unit: 'N·m' } })).toBe('24,5 N·m | 18,07 lbf·ft');
  expect(shown({ kind: 'length', amount: { nominal: 15.875, unit: 'mm' } })).toBe('15,875 mm | 0,625 in');
  expect(shown({ kind: 'torque', amount: { nominal: 98, min: 90.5, max: 105.5, unit: 'N·m' } })).toMatch(
    /^98,0 ± 7,5 N·m/,
  );
});

test('degrees and ratios keep their sign at each number', () => {
  expect(shown({ kind: 'angle', amount: { nominal: 90.5, min: 87.5, max: 95.5, unit: '°' } })).toBe(
    '90,5° (+5,0°/−3,0°)',
  );
  expect(shown({ kind: 'ratio', amount: { nominal: 14.7, max: 15.2, unit: ':1' } })).toBe('14,7:1, höchstens 15,2:1');
});

test('limits and spans are said in the language', () => {
  expect(shown({ kind: 'temperature', amount: { min: -5, max: 40, unit: '°C' } })).toMatch(/^−5 bis 40 °C/);
  expect(shown({ kind: 'voltage', amount: { max: 14.8, unit: 'V' } })).toBe('höchstens 14,8 V');
  const interval: Quantity = {
    kind: 'interval',
    distance: { nominal: 12000, unit: 'km' },
    time: { max: 6, unit: 'month' },
  };
  expect(showQuantity(interval, ['metric', 'us'], german).primary).toBe(
    'alle 12\u202f000 km oder höchstens 6 Monate, je nachdem, was zuerst kommt',
  );
});
