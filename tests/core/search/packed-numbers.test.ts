import { expect, test } from 'vitest';
import { packAscending, packNumbers, unpackAscending, unpackNumbers } from '../../../src/core/search/packed-numbers.ts';

// Five bits a sign, the lowest first, in the letters of Base64 (RFC 4648, table 2); by hand: 32 = 0 + 1 · 32.
test.each([
  [0, 'A'],
  [25, 'Z'],
  [26, 'a'],
  [31, 'f'],
  [32, 'gB'],
  [1023, '/f'],
  [1024, 'ggB'],
  [2 ** 40 + 5, 'lgggggggB'],
])('%d is %s', (number, text) => {
  expect(packNumbers([number])).toBe(text);
  expect([...unpackNumbers(text)]).toEqual([number]);
});

test('numbers in a row come back, ascending ones by their steps', () => {
  expect(packNumbers([1, 32, 2])).toBe('BgBC');
  expect([...unpackNumbers('BgBC')]).toEqual([1, 32, 2]);
  expect(packAscending([5, 6, 6, 70])).toBe('FBAgC');
  expect(packAscending(Float64Array.of(5, 6))).toBe('FB');
  expect([...unpackAscending('FBAgC')]).toEqual([5, 6, 6, 70]);
  expect([...unpackAscending('')]).toEqual([]);
});
