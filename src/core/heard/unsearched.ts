import { searchQuantities } from './find-quantities.ts';
import { MOST_NUMBERS } from './search-with.ts';
import { LONGEST_CHUNK } from './tokens.ts';

/** A stretch of a text in which no quantity was looked for. */
export interface Unsearched {
  /** Offsets in the text, half-open. */
  readonly start: number;
  readonly end: number;
  readonly why: string;
}

/** Begins where a run does: from inside one it would be gone through again and again. */
const LONG = new RegExp(`(?<!\\S)\\S{${LONGEST_CHUNK + 1},}`, 'g');

/**
 * What `findQuantities` passes over in a text: figures in a run of characters longer than any word, and all that comes
 * after more numbers than anybody says. Nothing in what people write and say.
 */
export function unsearched(text: string): readonly Unsearched[] {
  const long = [...text.matchAll(LONG)]
    .filter(([run]) => /\d/.test(run))
    .map(({ 0: run, index }) => ({
      start: index,
      end: index + run.length,
      why: `${run.length} characters without a blank`,
    }));
  // A number and what parts it from the next are two characters at least.
  if (text.length < MOST_NUMBERS * 2) return long;
  const { stoppedAt } = searchQuantities(text);
  if (stoppedAt === undefined) return long;
  const rest = { start: stoppedAt, end: text.length, why: `more than ${MOST_NUMBERS} numbers come before` };
  return [...long.filter(({ start }) => start < stoppedAt), rest];
}
