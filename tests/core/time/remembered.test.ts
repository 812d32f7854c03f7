import { expect, test } from 'vitest';
import { remembered } from '../../../src/core/time/index.ts';

test('each is worked out once, and no more than so many are remembered', () => {
  const worked: string[] = [];
  const letters = remembered(
    2,
    ({ word }: { word: string }) => word,
    ({ word }) => {
      worked.push(word);
      return [...word];
    },
  );
  const ask = (...words: string[]) => {
    worked.length = 0;
    for (const word of words) expect(letters({ word })).toEqual([...word]);
    return worked.join(' ');
  };
  expect(ask('nut', 'nut', 'cap', 'nut', 'cap')).toBe('nut cap');
  // The third does not fit beside the two.
  expect(ask('pin', 'pin')).toBe('pin');
  expect(ask('nut', 'pin', 'nut')).toBe('nut');
  expect(ask('cap', 'nut')).toBe('cap nut');
});
