import { expect, test } from 'vitest';
import { startOf } from '../../../src/core/model/index.ts';
import { enclosedInQuotes, valuesInQuotes } from '../../../src/core/read/typographic-quotes.ts';

test.each([
  ['“Chain”', 'Chain'],
  ['„Kette“', 'Kette'],
  ['„Kette”', 'Kette'],
  ['”Kedja”', 'Kedja'],
  ['«Chaîne»', 'Chaîne'],
  ['« Chaîne »', 'Chaîne'],
  ['»Kette«', 'Kette'],
  ['‘The rider’s chain’', 'The rider’s chain'],
  ['‚Kette‘', 'Kette'],
  // A quotation within a text, an apostrophe, straight quotes and other marks stay.
  ['“Snug” and “tight”', undefined],
  ['What “snug” means', undefined],
  ['“Snug”, and what it means', undefined],
  ['On what is “snug”', undefined],
  ['’Tis the riders’ own', undefined],
  ['the riders’', undefined],
  ['"Chain"', undefined],
  ['“', undefined],
  ['«Chain“', undefined],
  ['', undefined],
])('%s', (text, bare) => {
  expect(enclosedInQuotes(text)).toBe(bare);
});

test('a value that is nothing but quotes is no value in quotes, and others are told by their key, in lists too', () => {
  const place = startOf('kit.yaml');
  const found = [...valuesInQuotes({ title: '“”', tools: ['« »', { unit: ' „N·m“ ' }, 3, null] }, () => place)];
  expect(found.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([
    expect.stringMatching(/^value-wrong: unit: „N·m“ /),
  ]);
});
