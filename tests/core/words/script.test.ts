import { expect, test } from 'vitest';
import { readScript } from '../../../src/core/words/index.ts';

const said = (text: string) => readScript(text).map(({ words, line }) => `${line}: ${words.join(' ')}`);

test('a text is taken apart into its sentences, each with the line it begins on', () => {
  expect(said('Now look. Is it\nstraight? "No!" he said.\n\nThe end\n\nof it…')).toEqual([
    '1: Now look.',
    '1: Is it straight?',
    '2: "No!"',
    '2: he said.',
    '4: The end',
    '6: of it…',
  ]);
});

test('sounds in brackets and what stands alone are not spoken; abbreviations end no sentence', () => {
  expect(said('[tapping]\nFirst – the nut, e.g. this one. [a wrench\nfalls] Then\r\n- the axle.')).toEqual([
    '2: First – the nut, e.g. this one.',
    '3: Then - the axle.',
  ]);
  expect(said('[no speech]\n* * *\n')).toEqual([]);
});

test('a sentence without end is laid in parts of at most 24 words, after a comma where there is one', () => {
  const words = Array.from({ length: 60 }, (_, i) => (i === 19 ? `w${i},` : `w${i}`));
  const parts = readScript(words.join(' '));
  expect(parts.map((part) => part.words.length)).toEqual([20, 24, 16]);
  expect(parts.flatMap((part) => part.words)).toEqual(words);
});
