import { must } from '../time/index.ts';
import type { TimedWord } from './time-words.ts';

/** What a recogniser makes of a piece of sound. */
export interface Recognition {
  readonly text: string;
  /** What the text is made of, and when each begins, s from the beginning of the piece; no times where it has none. */
  readonly tokens: readonly string[];
  readonly timestamps: readonly number[];
}

/** A word lasts so long after its last token began, where nothing comes before, s: about a syllable. */
const SYLLABLE = 0.3;
/** A sentence ends behind it. */
const ENDED = /[.!?…。？！]["'”’)]*$/u;
/** So far ahead in the tokens a word of the text is looked for, letters: where figures were written for words, they differ. */
const AHEAD = 60;

/**
 * The words of a piece with their times. Where the recogniser gives no times of tokens, words share the piece by their
 * letters.
 *
 * @param at where the piece lies, s
 */
export function recognisedWords(
  { text, tokens, timestamps }: Recognition,
  at: { start: number; end: number },
): TimedWord[] {
  const words = text
    .trim()
    .split(/\s+/u)
    .filter((word) => word !== '');
  if (words.length === 0) return [];
  const timed = tokens.length > 0 && timestamps.length === tokens.length;
  const starts = timed ? startsByToken(words, tokens, timestamps) : [];
  const letters = words.map((word) => [...word].length + 1);
  const all = letters.reduce((sum, count) => sum + count, 0);
  const length = at.end - at.start;
  let before = 0;
  let earliest = 0;
  const placed = words.map((word, i) => {
    const shared = (before / all) * length;
    before += must(letters[i], 'the length of a word');
    const { start = starts.length > 0 ? earliest : shared, last = start } = starts[i] ?? {};
    earliest = Math.min(length, Math.max(earliest, start));
    return { word, start: earliest, last: starts.length > 0 ? last + SYLLABLE : (before / all) * length };
  });
  return placed.map(({ word, start, last }, i): TimedWord => {
    const next = placed[i + 1]?.start ?? length;
    const end = Math.max(start, Math.min(next, length, Math.max(last, start)));
    return { text: word, start: at.start + start, end: at.start + end, ends: ENDED.test(word) };
  });
}

interface Letter {
  readonly letter: string;
  /** When its token begins, s. */
  readonly time: number;
  /** True where the model says that a word begins. */
  readonly opens: boolean;
}

/** When the first and the last token of each word begin; nothing for words that the tokens do not spell. */
function startsByToken(words: readonly string[], tokens: readonly string[], timestamps: readonly number[]) {
  const letters: Letter[] = [];
  // Some models write the beginning of a word as a token of its own.
  let opened: number | undefined;
  tokens.forEach((token, i) => {
    const own = lettersOf(token);
    const time = must(timestamps[i], 'the time of a token');
    own.forEach((letter, n) => {
      const first = n === 0;
      letters.push({
        letter,
        time: first ? (opened ?? time) : time,
        opens: first && (opened !== undefined || /^[▁\s]/u.test(token)),
      });
    });
    if (own.length > 0) opened = undefined;
    else if (/[▁\s]/u.test(token)) opened = time;
  });
  let next = 0;
  return words.map((word) => {
    const own = lettersOf(word);
    const spelled = (at: number) => own.every((letter, n) => letters[at + n]?.letter === letter);
    const near = Array.from({ length: own.length === 0 ? 0 : AHEAD }, (_, n) => next + n).filter(spelled);
    const at = near.find((one) => letters[one]?.opens) ?? near[0];
    if (at === undefined) return undefined;
    next = at + own.length;
    return { start: must(letters[at], 'a letter').time, last: must(letters[next - 1], 'a letter').time };
  });
}

const lettersOf = (text: string) => [...text.toLowerCase().replaceAll(/[^\p{L}\p{N}\p{M}]/gu, '')];

/** A model that knows capitals only writes nothing else; captions in capitals are hard to read. */
export function withoutShouting(words: readonly TimedWord[]): TimedWord[] {
  const written = words.map(({ text }) => text).join(' ');
  const shouted = /\p{Lu}{2}/u.test(written) && !/\p{Ll}/u.test(written);
  return shouted ? words.map((word) => ({ ...word, text: word.text.toLowerCase() })) : [...words];
}
