import fc from 'fast-check';
import { expect, test } from 'vitest';
import { mergedText, mergeTexts, settle } from '../../../src/core/edit/index.ts';

const base = 'one\ntwo\nthree\nfour\nfive\n';

test('changes to different lines go together', () => {
  const mine = 'one\nTWO\nthree\nfour\nfive\n';
  const theirs = 'one\ntwo\nthree\nfour\nfive\nsix\n';
  expect(mergedText(mergeTexts(base, mine, theirs))).toBe('one\nTWO\nthree\nfour\nfive\nsix\n');
});

test('the same change on both sides is taken once', () => {
  const both = 'one\n2\nthree\nfour\nfive\n';
  expect(mergedText(mergeTexts(base, both, both))).toBe(both);
});

test('different changes to one line are a clash that a person settles', () => {
  const merge = mergeTexts(base, 'one\nmine\nthree\nfour\nfive\n', 'one\ntheirs\nthree\nfour\nFIVE\n');
  expect(mergedText(merge)).toBeUndefined();
  expect(merge.clashes).toEqual([{ base: 'two\n', mine: 'mine\n', theirs: 'theirs\n', line: 2 }]);
  expect(settle(merge, ['mine'])).toBe('one\nmine\nthree\nfour\nFIVE\n');
  expect(settle(merge, ['theirs'])).toBe('one\ntheirs\nthree\nfour\nFIVE\n');
  expect(settle(merge, ['both'])).toBe('one\ntheirs\nmine\nthree\nfour\nFIVE\n');
  expect(() => settle(merge, [])).toThrow(RangeError);
});

test('line ends and a last line without one survive', () => {
  const crlf = 'a\r\nb\r\nc\r\nd';
  expect(mergedText(mergeTexts(crlf, 'A\r\nb\r\nc\r\nd', 'a\r\nb\r\nc\r\nD'))).toBe('A\r\nb\r\nc\r\nD');
});

const texts = fc.array(fc.constantFrom('a', 'b', 'c', 'd', ''), { maxLength: 12 }).map((rows) => rows.join('\n'));

test('whoever changed nothing loses nothing, and a settled clash is a whole side', () => {
  fc.assert(
    fc.property(texts, texts, texts, (from, mine, theirs) => {
      expect(mergedText(mergeTexts(from, from, theirs))).toBe(theirs);
      expect(mergedText(mergeTexts(from, mine, from))).toBe(mine);
      const merge = mergeTexts(from, mine, theirs);
      const words = settle(
        merge,
        merge.clashes.map(() => 'both'),
      );
      for (const word of new Set(mine.split('\n'))) if (!from.includes(word)) expect(words).toContain(word);
      for (const word of new Set(theirs.split('\n'))) if (!from.includes(word)) expect(words).toContain(word);
    }),
  );
});
