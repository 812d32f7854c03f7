import { expect, test } from 'vitest';
import { readDateCode } from '../../../src/core/spec/index.ts';

// Which weeks codes mean: tests/reference/motor.test.ts.
test.each([
  [
    '123',
    '"123" has three digits: made before 2000, in a decade that the code does not tell',
    'do not ride on a tyre that old, whatever it looks like',
  ],
  ['12 A6', '"12 A6" is not a date code', 'the code is the last four digits: week, then year'],
  ['0020', 'there is no week 00', 'weeks go from 01 to 53'],
  ['5420', 'there is no week 54', 'weeks go from 01 to 53'],
])('%s is refused in words', (code, problem, help) => {
  expect(readDateCode(code)).toEqual({ ok: false, problem, help });
});
