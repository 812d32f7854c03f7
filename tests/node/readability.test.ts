import { expect, test } from 'vitest';
import { median, readability } from '../support/texts/readability.ts';

// Words and syllables counted by hand; the first ease, 116, is often given as an example of the formula (from memory), the
// second worked out from it: 206.835 − 1.015 · 12 − 84.6 · 25 / 12.
test.each([
  ['The cat sat on the mat.', 1, 6, 6, 116.1],
  ['The Australian platypus is seemingly a hybrid of mammal and reptilian creature.', 1, 12, 25, 18.4],
])('%s', (text, sentences, words, syllables, ease) => {
  const found = readability(text);
  expect([found.sentences, found.words, found.syllables]).toEqual([sentences, words, syllables]);
  expect(found.ease).toBeCloseTo(ease, 1);
});

test('what is filled in is one word; code and options are none; colons and semicolons end a sentence', () => {
  expect(readability('{count} files: say --to DIR; then `npm start`.')).toMatchObject({ sentences: 3, words: 5 });
});

test('the middle of many', () => {
  expect([median([3, 1, 2]), median([4, 1, 2, 3])]).toEqual([2, 2.5]);
});
