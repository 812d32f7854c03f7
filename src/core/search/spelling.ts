import { nearest } from '../read/index.ts';

/** Shorter words have too many neighbours to know which one was meant. */
const SHORTEST = 4;

/**
 * Known words that a word may be a slip of, the likeliest first: begun with the same letter, few letters apart.
 */
export function meantWords(word: string, uses: ReadonlyMap<string, unknown>): string[] {
  if (word.length < SHORTEST || /\d/.test(word)) return [];
  const known = [...uses.keys()].filter((each) => each.length >= SHORTEST - 1 && each[0] === word[0] && each !== word);
  // Of the shortest, one letter changed is another word; two letters swapped are a slip.
  if (word.length === SHORTEST) return nearest(word, known, 1).filter((other) => lettersOf(other) === lettersOf(word));
  const close = nearest(word, known, word.length < 6 ? 1 : 2);
  return close.length > 0 ? close : nearest(word, known, 2);
}

function lettersOf(word: string): string {
  return [...word].toSorted().join('');
}
