import { convert } from '../spec/index.ts';
import type { HeardQuantity } from './heard-quantity.ts';

const ABOUT = /\b(about|around|roughly|near enough)\s*$/;
/** The same amount in another unit lies no further off than it was rounded. */
const ROUNDED = 0.04;
const ROUGHLY = 0.2;

/** `then go to 5.9 bar`: another thing to do. */
const NEXT_STEP = /\b(?:then|go|set|put|take|bring)\b/;
/** So many characters on, the same amount in another unit is the same one. */
const FURTHEST_AGAIN = 60;

const isLimit = ({ min, max }: HeardQuantity) => (min === undefined) !== (max === undefined);
const isPlain = ({ min, max, nominal }: HeardQuantity) => min !== undefined && min === max && nominal === undefined;

/** True where a second quantity says the amount of the first in another unit of its kind. */
function isSameAmount(before: HeardQuantity, found: HeardQuantity, between: string): boolean {
  const [first, second] = [before.readings[0], found.readings[0]];
  if (!first || !second || before.kind !== found.kind || first.symbol === second.symbol) return false;
  const [one, other] = [before.min ?? before.max, found.min ?? found.max];
  if (one === undefined || other === undefined) return false;
  const again = convert(other, found.kind, second.symbol, first.symbol);
  return Math.abs(again - one) <= (ABOUT.test(between) ? ROUGHLY : ROUNDED) * Math.abs(one);
}

/** The same limit said again in another unit leaves the same side: `not to exceed 85 psi or 5.9 bar`, `max 85 psi; six bar`. */
export function saidTwice(before: HeardQuantity | undefined, found: HeardQuantity, text: string): HeardQuantity {
  if (!before || !isLimit(before) || !isPlain(found)) return found;
  const between = text.slice(before.end, found.start).toLowerCase();
  return between.length < FURTHEST_AGAIN && !NEXT_STEP.test(between) && isSameAmount(before, found, between)
    ? withSideOf(before, found)
    : found;
}

/** `a foot long, thirty centimetres, is the least`: the limit is told behind both. */
export function limitForBoth(before: HeardQuantity, found: HeardQuantity, text: string): HeardQuantity | undefined {
  if (!isLimit(found) || !isPlain(before)) return undefined;
  const between = text.slice(before.end, found.start).toLowerCase();
  return JUST_AGAIN.test(between) && isSameAmount(before, found, between) ? withSideOf(found, before) : undefined;
}
/** `fifty mil, well, fifty or more`, `two hours isn't a target, it's the shortest wait there is`: the same amount, and then its side. */
export function limitAtLast(
  before: HeardQuantity | undefined,
  found: HeardQuantity,
  text: string,
): HeardQuantity | undefined {
  if (!before || !isPlain(before) || !isLimit(found) || before.kind !== found.kind || before.unit !== found.unit)
    return undefined;
  if ((found.min ?? found.max) !== before.min || found.start - before.end > FURTHEST_AGAIN) return undefined;
  const between = text.slice(before.end, found.start);
  return /[.?!]/.test(between) ||
    MORE_OF_IT.test(between) ||
    OF_SOMETHING_ELSE.test(between) ||
    / and (?:the|a|your)\b/.test(between)
    ? undefined
    : withSideOf(found, before);
}

const JUST_AGAIN =
  /^(?: (?!and\b|but\b)[\w'’-]+){0,3}[\s,(–—]*(?:(?:or|so|about|that['’]s|which is|call it|roughly|in old money) ){0,2}$/;

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
  if (before?.kind !== found.kind || before.unit !== found.unit || found.start - before.end > FURTHEST_ECHO)
    return false;
  // `no more than ten, so ten`.
  const same = before.min === found.min && before.max === found.max;
  if (!same && !(isLimit(before) && isPlain(found) && (before.min ?? before.max) === found.min)) return false;
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

/** `keep it to eighty percent, so sixteen amps`: what a limit comes to here is one too. */
const COMES_TO =
  /^(?:,? (?:of|if|when|on|for) [\w'’ -]{1,30})?,? (?:so (?:[\w'’]+ ){2,9}that['’]s|so|so that['’]s|which|which (?:is|means|comes to|makes)|that['’]s|meaning|making)(?: (?:on|for|with|in) (?:this|these|that|our|the)(?: [\w'’-]+){1,2},?)?(?: (?:is|means|that['’]s|makes it|comes to|gives you|about|around|roughly)){0,2} $/;

/** A number that goes on a limit leaves the same side. */
export function sameSide(before: HeardQuantity | undefined, found: HeardQuantity, text: string): HeardQuantity {
  if (before && isLimit(before) && isPlain(found) && COMES_TO.test(text.slice(before.end, found.start)))
    return withSideOf(before, found);
  if (!before || before.kind !== found.kind || found.min === undefined || found.min !== found.max) return found;
  if ((before.min === undefined) === (before.max === undefined)) return found;
  const between = text.slice(before.end, found.start);
  // `maximum for lighting, three percent; for anything else, five`.
  if (/^[;,] (?:and |but )?(?:for|on|in) [\w'’ -]{2,25}, $/.test(between)) return withSideOf(before, found);
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
