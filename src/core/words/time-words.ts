import { must } from '../time/index.ts';
import type { Laid } from './lay.ts';
import { LOOK } from './looks.ts';
import type { Sentence } from './script.ts';

/** A word, and when it is spoken, s. */
export interface TimedWord {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  /** True for the last word of a sentence. */
  readonly ends: boolean;
}

/** Speech of a recording, of which looks were taken. */
export interface SpokenPart {
  /** s */
  readonly start: number;
  /** How many looks. */
  readonly looks: number;
}

export interface TimedScript {
  readonly words: readonly TimedWord[];
  /** Sentences that could not be placed. */
  readonly missing: readonly Sentence[];
}

/**
 * A sentence that agrees hardly better than what belongs to nothing, which is 1, was not found: whatever is laid on
 * another sentence comes near that, since of all ways the best is taken.
 */
const WORST = 0.95;
/** Of its looks, how many have to lie somewhere. */
const LEAST = 0.5;
/** A crumb at the edge of a sentence, over a pause from the rest of it, is a breath or a knock, s. */
const CRUMB = 0.3;

/**
 * Times of words from where the looks of their sentences lie. Within a sentence a word takes as much of the voice's time
 * as it has letters.
 *
 * @param ends of the sentences among the looks of the text
 * @param parts of the sound, in order: what the looks of the sound were taken of
 */
export function timeWords(
  sentences: readonly Sentence[],
  ends: readonly number[],
  { at, costs }: Laid,
  parts: readonly SpokenPart[],
): TimedScript {
  const clock = clockOf(parts);
  const words: TimedWord[] = [];
  const missing: Sentence[] = [];
  sentences.forEach((sentence, i) => {
    const from = i === 0 ? 0 : must(ends[i - 1], 'the end of a piece');
    const moments = crumbsTaken(Array.from(at.subarray(from, ends[i]), clock));
    const placed = moments.filter((moment) => moment !== undefined).length;
    if (placed < LEAST * moments.length || placed === 0 || !((costs[i] ?? WORST) < WORST)) missing.push(sentence);
    else words.push(...wordsAt(sentence.words, moments));
  });
  return { words: inOrder(words), missing };
}

/** A look of the sound, on the clock of the recording. */
interface Moment {
  readonly part: number;
  /** s */
  readonly time: number;
}

function clockOf(parts: readonly SpokenPart[]): (look: number) => Moment | undefined {
  const firsts: number[] = [];
  let sum = 0;
  for (const { looks } of parts) {
    firsts.push(sum);
    sum += looks;
  }
  return (look) => {
    if (look < 0) return undefined;
    const part = firsts.findLastIndex((first) => first <= look);
    return { part, time: must(parts[part], 'a part').start + (look - must(firsts[part], 'a part')) * LOOK };
  };
}

/** Without what lies, over a pause, before the first or after the last half of a sentence and is too short for a word. */
function crumbsTaken(moments: readonly (Moment | undefined)[]): (Moment | undefined)[] {
  const lengths = new Map<number, number>();
  for (const moment of moments) if (moment) lengths.set(moment.part, (lengths.get(moment.part) ?? 0) + LOOK);
  const parts = [...lengths.keys()].toSorted((a, b) => a - b);
  const isCrumb = (part: number | undefined) =>
    part !== undefined && must(lengths.get(part), 'the length of a part') < CRUMB;
  while (parts.length > 1 && isCrumb(parts[0])) parts.shift();
  while (parts.length > 1 && isCrumb(parts.at(-1))) parts.pop();
  return moments.map((moment) => (moment && parts.includes(moment.part) ? moment : undefined));
}

function wordsAt(words: readonly string[], moments: readonly (Moment | undefined)[]): TimedWord[] {
  const weights = words.map((word) => 1 + [...word].filter((letter) => /[\p{L}\p{N}]/u.test(letter)).length);
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  let before = 0;
  return words.map((text, i): TimedWord => {
    const from = Math.round((before / all) * moments.length);
    before += must(weights[i], 'the weight of a word');
    const until = Math.max(from + 1, Math.round((before / all) * moments.length));
    const own = mostOfOnePart(moments.slice(from, until).filter((moment) => moment !== undefined));
    const near =
      moments.slice(from).find((moment) => moment !== undefined) ?? moments.findLast((moment) => moment !== undefined);
    const start = own[0]?.time ?? near?.time ?? 0;
    return { text, start, end: (own.at(-1)?.time ?? start) + LOOK, ends: i === words.length - 1 };
  });
}

/** A word is not spoken over a pause: it lies where most of it does. */
function mostOfOnePart(moments: readonly Moment[]): Moment[] {
  const byPart = new Map<number, Moment[]>();
  for (const moment of moments) byPart.set(moment.part, [...(byPart.get(moment.part) ?? []), moment]);
  return [...byPart.values()].toSorted((a, b) => b.length - a.length)[0] ?? [];
}

/** Each word from where the one before it began at the earliest, and until the next one begins at the latest. */
function inOrder(words: readonly TimedWord[]): TimedWord[] {
  let last = 0;
  const starts = words.map(({ start }) => {
    last = Math.max(last, start);
    return last;
  });
  return words.map((word, i) => {
    const start = starts[i] ?? word.start;
    const next = starts[i + 1] ?? Number.POSITIVE_INFINITY;
    return { ...word, start, end: Math.max(start, Math.min(Math.max(word.end, start + LOOK), next)) };
  });
}
