import { expect, test } from 'vitest';
import { apart, areHeard } from '../../support/heard-apart.ts';
import { grid, isHeard } from '../../support/heard-grid.ts';
import { isLimitHeard, limits } from '../../support/heard-limits.ts';

// Amounts made by program, from tables of how numbers, units and limits are spoken. The steps share no factor with a table's length,
// so that every row of every table is met. What is left: odds said as ranges, a heat or an angle with nothing that says which.
test.each([
  ['amounts with their unit', [...grid(97)], isHeard, 2000, 0.99],
  ['pairs with their unit said once', [...apart(211)], areHeard, 2000, 0.97],
  ['limits', [...limits(11)], isLimitHeard, 2000, 0.99],
] as const)('of %s, nearly all are heard and nothing else', (_, spoken, heard, fewest, share) => {
  const missed = spoken.filter((each) => !(heard as (said: (typeof spoken)[number]) => boolean)(each));
  expect(spoken.length).toBeGreaterThan(fewest);
  expect(1 - missed.length / spoken.length, missed.map(({ text }) => text).join('\n')).toBeGreaterThanOrEqual(share);
});
