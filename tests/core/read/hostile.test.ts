import { expect, test } from 'vitest';
import { READERS } from '../../bench/hostile-reading.ts';
import { HOSTILE_TEXT } from '../../support/hostile-text.ts';

/**
 * Enough to run out of stack in whoever walks into what stands inside each other. How long a megabyte takes is measured
 * by `tests/bench/hostile-readers.ts`.
 */
const BYTES = 12_000;

test.each(Object.entries(READERS))('texts made against %s are read or told', (_, { aimedAt, read }) => {
  const aimed = HOSTILE_TEXT.filter((text) => aimedAt.includes(text.aimedAt));
  expect(aimed.length).toBeGreaterThan(5);
  for (const { name, text } of aimed) expect(() => read(text(BYTES)), name).not.toThrow();
});
