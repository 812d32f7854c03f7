import { expect, test } from 'vitest';
import { findQuantities } from '../../../src/core/heard/index.ts';
import { distanceFrom, isMeant } from '../../../src/core/search/value-match.ts';
import type { Part } from '../../../src/core/spec/index.ts';
import { must } from '../../../src/core/time/index.ts';

const heard = (text: string) => must(findQuantities(text)[0], text);
const part = (kind: Part['kind'], amount: object): Part => ({ kind, amount }) as Part;
const torque = (amount: object) => part('torque', { unit: 'N·m', ...amount });
const length = (amount: object) => part('length', { unit: 'mm', ...amount });

test.each<[string, Part, boolean]>([
  ['98 Nm', torque({ nominal: 98 }), true],
  ['72 lbf·ft', torque({ nominal: 98 }), true],
  // A figure without a tolerance is known within one in a hundred.
  ['98.9 Nm', torque({ nominal: 98 }), true],
  ['99.1 Nm', torque({ nominal: 98 }), false],
  ['98 mm', torque({ nominal: 98 }), false],
  // Inside its limits.
  ['93 Nm', torque({ nominal: 98, min: 93, max: 103 }), true],
  ['92 Nm', torque({ nominal: 98, min: 93, max: 103 }), false],
  // Limited on one side: from its value to the limit, no further.
  ['322 mm', length({ max: 322 }), true],
  ['200 mm', length({ max: 322 }), false],
  ['321 mm', length({ nominal: 320, max: 322 }), true],
  ['319 mm', length({ nominal: 320, max: 322 }), false],
  ['3.5 mm', length({ nominal: 4, min: 3 }), true],
  ['4.5 mm', length({ nominal: 4, min: 3 }), false],
  ['3 mm', length({ min: 3 }), true],
])('%s stands for %o: %s', (text, of, meant) => {
  expect(isMeant(heard(text), of)).toBe(meant);
});

test('distance is a share of the value, of the middle of limits, of the one limit there is', () => {
  const far = (text: string, of: Part) => distanceFrom(heard(text), of);
  expect(far('110 Nm', torque({ nominal: 100 }))).toBeCloseTo(0.1, 9);
  expect(far('30 mm', length({ min: 30, max: 50 }))).toBeCloseTo(10 / 40, 9);
  expect(far('45 mm', length({ min: 50 }))).toBeCloseTo(0.1, 9);
  expect(far('45 mm', length({ max: 50 }))).toBeCloseTo(0.1, 9);
  // Of nought by its last figure.
  expect(far('2 mm', length({ nominal: 0 }))).toBeCloseTo(2, 9);
  expect(far('45 mm', torque({ nominal: 45 }))).toBe(Infinity);
});
