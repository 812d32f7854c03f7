import { convert } from '../spec/index.ts';
import { countsNothing } from './no-noun.ts';
import type { Phrase } from './number-and-unit.ts';
import type { NumberRead } from './number-read.ts';
import type { Said } from './said.ts';
import type { Talk } from './talk.ts';
import { type Token, textAt, wordAt } from './tokens.ts';
import { unitAfter } from './unit-heard.ts';
import type { UnitHeard } from './unit-spoken.ts';

/** Behind these the number picks out, or names. */
const PICKED =
  /\b(all|these|those|first|last|next|other|the|both|step|stage|number|page|part|size|grade|class|type|in|(?:one|out|each|all|any|both|some|most|none) of)\s+$/;
/** The larger of two guesses is at most so many times the smaller. */
const GUESS = 2.5;
/** `thirty-five, maybe forty pounds`. */
export const HEDGE = /^(maybe|perhaps|possibly|even)$/;
const LITTLE = 1.3;
const MOST_IN_A_LIST = 6;
/** The ends of a range said in two units lie no further apart. */
const FARTHEST_ENDS = 100;

/**
 * Numbers side by side before one unit. Two are a guess with room, `sixty, sixty-two Rockwell C`; three or more are
 * each a value, `seventy, one-forty, two-ten inch-pounds`.
 */
export function sideBySide(talk: Talk, low: NumberRead, said: Said): Phrase | undefined {
  const { pieces, numbers } = talk;
  if (low.article || PICKED.test(said.before) || /\bnot\s+$/.test(said.before)) return undefined;
  let last = low;
  for (let count = 1; count < MOST_IN_A_LIST; count++) {
    const pause = pieces[last.to]?.text === ',' ? last.to + 1 : last.to;
    const joined = /^(and|then)$/.test(wordAt(pieces, pause));
    const hedged = HEDGE.test(wordAt(pieces, pause));
    // Captions have no comma: `forty forty five psi`.
    const beside = count === 1 && isSpokenGuess(low, numbers.at(pause));
    if (pause === last.to && !(joined && count > 1) && !hedged && !beside) return undefined;
    const next = numbers.at(joined || hedged ? pause + 1 : pause);
    if (!next || next.article || next.value <= last.value) return undefined;
    const unit = unitAfter(talk, next.to, next, said);
    if (!unit) {
      last = next;
      continue;
    }
    if (unit.kind === 'count' || unit.symbol === ':1') return undefined;
    const inList =
      count > 1 ||
      joined ||
      (pieces[low.from - 1]?.text === ',' &&
        isNumberWord(pieces[low.from - 2]) &&
        pieces[low.from - 2]?.lower !== 'one');
    if (inList) return { low, unit: { ...unit, to: low.to }, to: low.to };
    return next.value <= low.value * GUESS ? { low, high: next, unit, to: unit.to } : undefined;
  }
  return undefined;
}

/** So little more than the first is a guess and no other number. */
const A_LITTLE_MORE = 1.3;
function isSpokenGuess(low: NumberRead, next: NumberRead | undefined): boolean {
  if (!next || low.figures || next.figures || low.value < 10) return false;
  return next.value > low.value && next.value <= low.value * A_LITTLE_MORE;
}

/** True for a number in figures, and for a word that is one or ends one. */
export function isNumberWord(token: Token | undefined): boolean {
  return token?.type === 'number' || NUMBER.test(token?.lower ?? '');
}

const NUMBER =
  /^(hundred|thousand|[a-z]+teen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|ten|twelve|eleven|one|two|three|four|five|six|seven|eight|nine)$/;

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
  const past = pieces[comma]?.text === ',' ? comma + 1 : comma;
  const hedge = HEDGE.test(wordAt(pieces, past));
  if (past === comma && !hedge) return undefined;
  const from = past + (hedge ? 1 : 0);
  const second = numbers.at(from) ?? onlyItsUnit(talk, from, own, said);
  if (!second) return undefined;
  const whole = { ...second, article: false };
  const unit = unitAfter(talk, second.to, whole, said);
  if (unit && unit.symbol !== own.symbol) return undefined;
  // `two metres, two point two.`: a little more, and nothing behind it.
  const alittle = !unit && second.value <= low.value * LITTLE && /^([.?!]|)$/.test(textAt(pieces, second.to));
  if (!hedge && !alittle && !(low.article && second.article && unit)) return undefined;
  const part = unit && pieces[unit.to]?.lower === 'and' ? numbers.at(unit.to + 1) : undefined;
  const extra = part && part.value < 1 ? part : undefined;
  if (second.article && !unit) return undefined;
  const value = second.value + (extra?.value ?? 0);
  const to = extra?.to ?? unit?.to ?? second.to;
  // A number that counts something else is no guess.
  if (!unit && (!countsNothing(pieces, to) || IN_WHICH_CASE.test(wordAt(pieces, to)))) return undefined;
  return value > low.value && value <= low.value * GUESS ? { high: { ...second, value, to }, to } : undefined;
}

/** `maybe eight when it is new`: of another case. */
const IN_WHICH_CASE = /^(if|when|where|once|for|with|after|before|unless)$/;

/** `an inch, inch and a half`: the article left out. */
function onlyItsUnit(talk: Talk, from: number, own: UnitHeard, said: Said): NumberRead | undefined {
  const one = { value: 1, from, to: from, figures: false, article: true };
  return unitAfter(talk, from, { ...one, article: false }, said)?.symbol === own.symbol ? one : undefined;
}

/** `forty-five minutes to an hour`: a range whose ends are said in two units. */
export function inAnotherUnit(
  talk: Talk,
  low: NumberRead,
  own: UnitHeard,
  second: NumberRead,
  said: Said,
): { high: NumberRead; to: number } | undefined {
  if (!/^(to|or|[-–—])$/.test(wordAt(talk.pieces, own.to))) return undefined;
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
