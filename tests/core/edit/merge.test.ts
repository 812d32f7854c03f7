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

// Line by line against line this would take a quarter of a minute, and as long again for each step that can be undone.
test('captions of two hours go together at once: mine read, theirs with another line', () => {
  const clock = (s: number) => new Date(s * 1000).toISOString().slice(11, 23);
  const captions = (read: number, more: string) =>
    Array.from({ length: 1800 }, (_, i) => {
      const mark = i < read ? '' : `unread-${i}\n`;
      return `${mark}${clock(i * 4)} --> ${clock(i * 4 + 3)}\nWhat is said there.\n${i === 900 ? more : ''}`;
    }).join('\n');
  for (const read of [0, 900, 1800]) {
    const merged = mergeTexts(captions(1800, ''), captions(read, ''), captions(1800, 'And one more line.\n'));
    expect(mergedText(merged)).toBe(captions(read, 'And one more line.\n'));
  }
});

test('the line of a clash is counted in their text, whatever mine has before it', () => {
  const { clashes } = mergeTexts('a\nb\nc\nd\n', 'new\nmine too\na\nb\nc\nD\n', 'a\nb\nmore\nc\n4\n');
  expect(clashes).toEqual([{ base: 'd\n', mine: 'D\n', theirs: '4\n', line: 5 }]);
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
