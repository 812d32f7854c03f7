import { convert } from '../spec/index.ts';
import type { HeardQuantity } from './heard-quantity.ts';

/** `85 psi or 5.9 bar`, `85 psi, which is 5.9 bar`. */
const IN_OTHER_WORDS =
  /^(?: or (?:above|over|more|better|higher|less|under|below|lower))?[\s,(–—]*(?:in (?:old money|english|metric|real money),? )?(or|which is|that['’]s|that is|so)?( (about|around|roughly|near enough))?\s*$/;
/** `at least twenty-five mil proud of the grip, an inch in old money`. */
const WHERE_IT_IS = /^(?: (?!and\b|but\b)[\w'’-]+){1,6}, (?:(?:or|so|about|that['’]s|which is|call it) ){0,2}$/;
const ABOUT = /\b(about|around|roughly|near enough)\s*$/;
/** The same amount in another unit lies no further off than it was rounded. */
const ROUNDED = 0.04;
const ROUGHLY = 0.2;

/** The same limit said again in another unit leaves the same side: `not to exceed 85 psi or 5.9 bar`. */
export function saidTwice(before: HeardQuantity | undefined, found: HeardQuantity, text: string): HeardQuantity {
  const [first, second] = [before?.readings[0], found.readings[0]];
  if (!before || !first || !second || before.kind !== found.kind || first.symbol === second.symbol) return found;
  const limit = before.min === undefined ? before.max : before.max === undefined ? before.min : undefined;
  if (limit === undefined || found.min === undefined || found.min !== found.max) return found;
  const again = convert(found.min, found.kind, second.symbol, first.symbol);
  const between = text.slice(before.end, found.start).toLowerCase();
  if (Math.abs(again - limit) > (ABOUT.test(between) ? ROUGHLY : ROUNDED) * Math.abs(limit)) return found;
  return IN_OTHER_WORDS.test(between) || WHERE_IT_IS.test(between) ? withSideOf(before, found) : found;
}

/** `then another ninety`: as much again. */
const MORE_OF_IT = /\b(?:another|a further|again|more)\s*$/i;
/** `half a litre of coolant and half a litre of water`, `sump plug's twenty-five, filter housing's twenty-five`. */
const OF_SOMETHING_ELSE = /^ of [^,]+ and $|^, [\w'’ -]+(?:['’]s|\b(?:is|are|gets?|wants?|takes?))\s+$/i;

/** So many characters on, it is said again of something else. */
const FURTHEST_ECHO = 120;
const ONCE_MORE =
  /^[,.…–—-]+ (?:(?:look|yeah|yes|right|okay|ok|so|mate|i said|again|honestly|exactly|remember|that['’]s|that's it),? ){0,2}$/i;

/**
 * `it's a quarter turn, look, quarter turn, stop`, `its groove is fifty thou, so the chain has to be fifty thou`: the same
 * once more.
 */
export function isEcho(before: HeardQuantity | undefined, found: HeardQuantity, text: string): boolean {
  if (before?.kind !== found.kind || before.unit !== found.unit) return false;
  if (before.min !== found.min || before.max !== found.max || found.start - before.end > FURTHEST_ECHO) return false;
  const between = text.slice(before.end, found.start);
  const more = MORE_OF_IT.test(between) || /^another\b/i.test(found.text) || OF_SOMETHING_ELSE.test(between);
  if (!more && /[a-z]{2}/i.test(between) && !/[.?!;]/.test(between)) return true;
  // `a quarter of a turn, spin it, look again. Quarter turn.`: a sentence of its own that says it again.
  return ONCE_MORE.test(between) || (/[a-z]\. $/i.test(between) && /^[.!]/.test(text.slice(found.end)));
}

const AND_NO_MORE = /^,?(?: and| but)?,? (?:no|not) more than $/;

/** `no less than two thou, no more than eight`: one range. */
export function leastAndMost(
  before: HeardQuantity | undefined,
  found: HeardQuantity,
  text: string,
): HeardQuantity | undefined {
  if (!before || before.kind !== found.kind || before.unit !== found.unit) return undefined;
  if (before.max !== undefined || found.min !== undefined || !AND_NO_MORE.test(text.slice(before.end, found.start)))
    return undefined;
  const { max } = found;
  return {
    ...before,
    ...(max === undefined ? {} : { max }),
    end: found.end,
    text: text.slice(before.start, found.end),
  };
}

/** `within eight inches of a box, twelve if it has none`: a limit again, with nothing but its number. */
const ANOTHER_CASE = /, (?:and )?$/;
const IN_WHICH = /^ (?:if|when|for|past|where|on\b|in the|up and|up or|sideways|side to|across|front)\b/;

/** A number that goes on a limit leaves the same side. */
export function sameSide(before: HeardQuantity | undefined, found: HeardQuantity, text: string): HeardQuantity {
  if (!before || before.kind !== found.kind || found.min === undefined || found.min !== found.max) return found;
  if ((before.min === undefined) === (before.max === undefined)) return found;
  const between = text.slice(before.end, found.start);
  if (!ANOTHER_CASE.test(between) || /[.?!;]/.test(between) || !IN_WHICH.test(text.slice(found.end, found.end + 8)))
    return found;
  return withSideOf(before, found);
}

/** A single value with the side of a limit: `no more than ten, sorry, twelve`. */
export function withSideOf(limit: HeardQuantity, found: HeardQuantity): HeardQuantity {
  if (found.min === undefined || found.min !== found.max || found.nominal !== undefined) return found;
  if ((limit.min === undefined) === (limit.max === undefined)) return found;
  const { min, max, ...rest } = found;
  return limit.min === undefined ? { ...rest, max } : { ...rest, min };
}
