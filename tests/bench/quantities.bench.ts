import { test } from 'vitest';
import { findQuantities } from '../../src/core/heard/index.ts';
import { labelled } from '../support/heard.ts';

test('hearing an hour of talk, against merely splitting it into words', async ({ bench }) => {
  const talk = labelled('tests/reference/heard/sentences.txt').flatMap(({ text }) => [text, text, text]);
  await bench.compare(
    bench('find quantities', () => {
      for (const line of talk) findQuantities(line);
    }),
    bench('split into words', () => {
      for (const line of talk) line.split(/\s+/);
    }),
    { time: 200 },
  );
});
