import { expect, test } from 'vitest';
import { must } from '../../../src/core/time/index.ts';

test('what is there comes back, also where it is nothing much; what is missing is named', () => {
  expect([0, '', false, Number.NaN].map((value) => must(value, 'a value'))).toEqual([0, '', false, Number.NaN]);
  expect(() => must([1, 2][2], 'the third of two')).toThrow('the third of two is missing');
  expect(() => must(null, 'a row')).toThrow('a row is missing');
});
