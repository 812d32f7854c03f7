import { convert } from '../spec/index.ts';
import type { NumberRead } from './number.ts';
import type { Phrase } from './number-and-unit.ts';
import type { Said } from './said.ts';
import type { Talk } from './talk.ts';
import type { Token } from './tokens.ts';
import { unitAfter } from './unit-heard.ts';
import type { UnitHeard } from './unit-spoken.ts';

/** Behind these the number picks out, or names. */
const PICKED =
  /\b(all|these|those|first|last|next|other|the|both|step|stage|number|page|part|size|grade|class|type|in|of)\s+$/;
/** The larger of two guesses is at most so many times the smaller. */
const GUESS = 2.5;
const MOST_IN_A_LIST = 6;
/** The ends of a range said in two units lie no further apart. */
const FARTHEST_ENDS = 100;

/**
 * Numbers side by side before one unit. Two are a guess with room, `sixty, sixty-two Rockwell C`; three or more are
 * each a value, `seventy, one-forty, two-ten inch-pounds`.
 */
export function sideBySide(talk: Talk, low: NumberRead, said: Said): Phrase | undefined {
  const { pieces, numbers } = talk;
  if (low.article || PICKED.test(said.before)) return undefined;
  let last = low;
  for (let count = 1; count < MOST_IN_A_LIST; count++) {
    const pause = pieces[last.to]?.text === ',' ? last.to + 1 : last.to;
    const joined = /^(and|then)$/.test(pieces[pause]?.lower ?? '');
    if (pause === last.to && !(joined && count > 1)) return undefined;
    const next = numbers.at(joined ? pause + 1 : pause);
    if (!next || next.article || next.value <= last.value) return undefined;
    const unit = unitAfter(talk, next.to, next, said);
    if (!unit) {
      last = next;
      continue;
    }
    if (unit.kind === 'count' || unit.kind === 'ratio') return undefined;
    const inList = count > 1 || joined || isNumberWord(pieces[low.from - 2], pieces[low.from - 1]);
    if (inList) return { low, unit: { ...unit, to: low.to }, to: low.to };
    return next.value <= low.value * GUESS ? { low, high: next, unit, to: unit.to } : undefined;
  }
  return undefined;
}

/** True where a number and a comma stand before. */
function isNumberWord(token: Token | undefined, comma: Token | undefined): boolean {
  return (
    comma?.text === ',' &&
    (token?.type === 'number' ||
      /^(hundred|thousand|[a-z]+teen|[a-z]+ty|ten|twelve|eleven|one|two|three|four|five|six|seven|eight|nine)$/.test(
        token?.lower ?? '',
      ))
  );
}

/** `half a turn, maybe three quarters`, `a millimetre, a millimetre and a half tops`: the second is the same guess, larger. */
export function guessedFurther(
  talk: Talk,
  low: NumberRead,
  own: UnitHeard,
  said: Said,
): { high: NumberRead; to: number } | undefined {
  const { pieces, numbers } = talk;
  // `three quarters of an inch of jacket, maybe seven eighths`.
  const comma = pieces[own.to]?.lower === 'of' && pieces[own.to + 1]?.type === 'word' ? own.to + 2 : own.to;
  if (pieces[comma]?.text !== ',') return undefined;
  const hedge = /^(maybe|perhaps|possibly)$/.test(pieces[comma + 1]?.lower ?? '');
  const second = numbers.at(comma + (hedge ? 2 : 1));
  if (!second) return undefined;
  const whole = { ...second, article: false };
  const unit = unitAfter(talk, second.to, whole, said);
  if (unit && unit.symbol !== own.symbol) return undefined;
  if (!hedge && !(low.article && second.article && unit)) return undefined;
  const part = unit && pieces[unit.to]?.lower === 'and' ? numbers.at(unit.to + 1) : undefined;
  const extra = part && part.value < 1 ? part : undefined;
  if (second.article && !unit) return undefined;
  const value = second.value + (extra?.value ?? 0);
  const to = extra?.to ?? unit?.to ?? second.to;
  // A number that counts something else is no guess.
  if (
    !unit &&
    pieces[to]?.type === 'word' &&
    !/^(if|and|but|or|so|at|for|on|in|when|tops|max)$/.test(pieces[to]?.lower ?? '')
  )
    return undefined;
  return value > low.value && value <= low.value * GUESS ? { high: { ...second, value, to }, to } : undefined;
}

/** `forty-five minutes to an hour`: a range whose ends are said in two units. */
export function inAnotherUnit(
  talk: Talk,
  low: NumberRead,
  own: UnitHeard,
  second: NumberRead,
  said: Said,
): { high: NumberRead; to: number } | undefined {
  if (!/^(to|or|[-–—])$/.test(talk.pieces[own.to]?.lower ?? '')) return undefined;
  const unit = unitAfter(talk, second.to, { ...second, article: false }, said);
  const [ownUnit, other] = [own.readings[0], unit?.readings[0]];
  if (!unit || !ownUnit || !other || unit.kind !== own.kind || unit.kind !== 'time' || unit.symbol === own.symbol)
    return undefined;
  const value = convert(second.value, own.kind, other.symbol, ownUnit.symbol);
  // `fifty hours or six months`: whichever comes first.
  const most = talk.pieces[own.to]?.lower === 'or' ? GUESS : FARTHEST_ENDS;
  const near = value > low.value && value <= low.value * most;
  return near ? { high: { ...second, value, to: unit.to }, to: unit.to } : undefined;
}
