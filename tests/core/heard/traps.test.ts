import { expect, test } from 'vitest';
import { searchQuantities } from '../../../src/core/heard/find-quantities.ts';
import { TRAPS } from '../../../src/core/heard/traps/index.ts';

test.each(TRAPS.map((trap) => [trap.rule, trap] as const))('%s', (_, trap) => {
  const caught = searchQuantities(trap.catches);
  expect(caught.quantities).toEqual([]);
  expect(caught.leftOut.map((each) => each.trap.rule)).toEqual([trap.rule]);
  const left = searchQuantities(trap.leaves);
  expect(left.leftOut).toEqual([]);
  expect(left.quantities).toHaveLength(1);
});

test('a rule of speech is named once', () => {
  expect(new Set(TRAPS.map(({ rule }) => rule)).size).toBe(TRAPS.length);
});
