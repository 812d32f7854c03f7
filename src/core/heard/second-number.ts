import type { NumberRead } from './number-read.ts';
import type { Talk } from './talk.ts';
import { type Token, wordAt } from './tokens.ts';

const BETWEEN = new Set(['to', 'through', 'thru', 'or', 'and', 'till', 'until']);
const DISFLUENT = new Set(['uh', 'um', 'er', 'erm', 'say', 'maybe', 'about', 'perhaps', 'up']);
const DASH = /^[-–—−…~]$/;

/** `from about thirty miles an hour down to five`. */
export const OPENED = /\b(between|from)\W+(?:(?:about|around|roughly|approximately|say|maybe|the)\W+)*$/;

/** True for what can stand between the two numbers of a range. */
export function mayConnect(token: Token | undefined): boolean {
  return token?.type === 'mark'
    ? DASH.test(token.text)
    : BETWEEN.has(token?.lower ?? '') || /^(up|down)$/.test(token?.lower ?? '');
}

/**
 * The second number of a range: after `to`, `or`, `and` (with `between`), or a dash.
 *
 * @param opened `from` or `between`, where one of them stands before the first number
 */
export function numberAfter({ pieces, numbers }: Talk, from: number, opened?: string): NumberRead | undefined {
  const word = (i: number) => (pieces[i]?.type === 'word' ? pieces[i]?.lower : undefined);
  // `ten- to twelve-millimetre`, `from 20 mm up to 30 mm`.
  const hanging = pieces[from]?.text === '-' && word(from + 1) === 'to';
  const onwards = opened === 'from' && /^(up|down)$/.test(word(from) ?? '') && word(from + 1) === 'to';
  const at = hanging || onwards ? from + 1 : from;
  const token = pieces[at];
  if (!token) return undefined;
  const dash = token.type === 'mark' && DASH.test(token.text);
  const joins = token.type === 'word' && BETWEEN.has(token.lower) && (token.lower !== 'and' || opened === 'between');
  if (!dash && !joins) return undefined;
  let next = at + 1;
  while (DISFLUENT.has(wordAt(pieces, next)) || (next > at + 1 && pieces[next]?.text === ',')) next++;
  if (pieces[next]?.text === ',' && DISFLUENT.has(wordAt(pieces, next + 1))) {
    next += 2;
    if (pieces[next]?.text === ',') next++;
  }
  return numbers.at(next);
}
