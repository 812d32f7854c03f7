import { flesch } from 'flesch';
import { syllable } from 'syllable';

/** How easily a text is read. */
export interface Readability {
  readonly words: number;
  readonly sentences: number;
  readonly syllables: number;
  /** 0 and below: very hard; 30 to 50: hard; 60 to 70: plain; 90 and above: very easy. */
  readonly ease: number;
}

/** Texts of fewer words say nothing by their average: a label of one long word would be the hardest of all. */
export const FEWEST_WORDS = 8;

/**
 * Flesch's reading ease: 206.835 − 1.015 · words per sentence − 84.6 · syllables per word.
 *
 * What is filled in counts as one short word; code, options and ids are left out. Sentences end at full stops, question
 * and exclamation marks, colons and semicolons, as in the source.
 * Source: R. Flesch, "A new readability yardstick", Journal of Applied Psychology 32 (1948), 221–233 (the treatment of
 * colons and semicolons from memory).
 */
export function readability(text: string): Readability {
  const plain = text
    .replaceAll(/\{[^}]*\}/g, 'it')
    .replaceAll(/`[^`]*`|<[^>]*>|--?[a-z][\w-]*|\b[\w-]+\.[a-z]{2,4}\b/g, ' ')
    .replaceAll(/[“”"()]/g, ' ');
  const sentences = plain.split(/[.!?;:]+(?:\s|$)/).filter((each) => /\p{L}{2}/u.test(each)).length;
  const words = plain.match(/[\p{L}\p{N}][\p{L}\p{N}'’·/%-]*/gu) ?? [];
  const syllables = words.reduce((sum, word) => sum + Math.max(1, syllable(word)), 0);
  const counts = { words: words.length, sentences: Math.max(1, sentences), syllables };
  return {
    ...counts,
    ease: flesch({ sentence: counts.sentences, word: Math.max(1, words.length), syllable: syllables }),
  };
}

/** Middle value; NaN of none. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1
    ? (sorted[half] ?? Number.NaN)
    : ((sorted[half - 1] ?? Number.NaN) + (sorted[half] ?? Number.NaN)) / 2;
}
