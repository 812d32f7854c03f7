import { unitOf } from '../spec/index.ts';
import { guessBehind } from './bare.ts';
import { inTwoUnits } from './compound.ts';
import { countsNothing } from './no-noun.ts';
import type { Phrase } from './number-and-unit.ts';
import type { NumberRead } from './number-read.ts';
import { NOTHING_SAID, type Said } from './said.ts';
import { scaleBefore } from './scale-before.ts';
import { mayConnect, numberAfter, OPENED } from './second-number.ts';
import { guessedFurther, inAnotherUnit, sideBySide } from './side-by-side.ts';
import { correctionLength, pastRejected } from './taken-back.ts';
import type { Talk } from './talk.ts';
import { type Token, textAt, wordAt } from './tokens.ts';
import { toleranceAfter } from './tolerance.ts';
import { unitBehindPause } from './unit-alone.ts';
import { unitAfter } from './unit-heard.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';
import { unitUnderstood } from './unit-understood.ts';

/** The numbers and the unit that begin with a number; nothing where they come to no quantity. */
export function phraseFrom(talk: Talk, low: NumberRead, said: Said): Phrase | undefined {
  const { pieces } = talk;
  const compound = inTwoUnits(talk, low);
  if (compound) return compound;
  const offset = offsetFrom(talk, low, said);
  if (offset) return offset;
  const own =
    unitAfter(talk, low.to, low, said) ??
    (low.article
      ? undefined
      : (unitBehindPause(talk, low.to, low, said) ?? scaleBefore(low.to, said) ?? unitUnderstood(talk, low, said)));
  const end = own?.to ?? low.to;
  const opened = mayConnect(pieces[end]) ? OPENED.exec(said.before)?.[1] : undefined;
  const second = numberAfter(talk, end, opened);
  // `sags from two-thirty to two-eighteen volts`, `goes from eleven teeth to thirty-four`: two values.
  if (second && opened === 'from' && (CHANGES.test(said.before) || own?.kind === 'count')) {
    const unit = own ?? unitAfter(talk, second.to, second, said);
    if (unit) return { low, unit, to: end };
  }
  if (!own && second && low.value >= second.value) {
    const counted = inPartsOf(low, second);
    const unit = counted && unitAfter(talk, second.to, second, said);
    if (counted && unit) return { low: counted, high: second, unit, to: unit.to };
  }
  const other = own && second ? inAnotherUnit(talk, low, own, second, said) : undefined;
  if (own && other) return { low, high: other.high, unit: own, to: other.to };
  const orTwo = own && low.article ? anInchOrTwo(talk, own) : undefined;
  if (own && orTwo) return { low: { ...low, article: false }, high: orTwo, unit: own, to: orTwo.to };
  const more = own?.to === low.to ? guessBehind(talk, low) : undefined;
  if (own && more) return { low, high: more, unit: own, to: more.to };
  const further = own ? guessedFurther(talk, low, own, said) : undefined;
  if (own && further) return { low, high: further.high, unit: own, to: further.to };
  if (second && !second.article) {
    const unit = unitAfter(talk, second.to, second, said);
    const same = unit && (!own || own.symbol === unit.symbol || own.kind === unit.kind);
    if (unit && same && second.value > low.value && (!own || own.symbol === unit.symbol))
      return { low, high: second, unit, to: unit.to };
    // `from 50 down to 44`: the two ends of a range, said from above.
    if (unit && same && opened === 'from' && second.value < low.value)
      return { low: { ...second, from: low.from }, high: low, unit, to: unit.to };
    const parts = own?.to === low.to && second.denominator !== undefined;
    if (own && !unit && (parts || isTail(pieces, second))) {
      if (second.value > low.value) return { low, high: second, unit: own, to: second.to };
      if (opened === 'from' && second.value < low.value)
        return { low: { ...second, from: low.from }, high: low, unit: own, to: second.to };
    }
    if (!own) return toleranceBeforeUnit(talk, low, said);
  }
  if (second?.article) {
    // `an inch to an inch and a half`.
    const more = oneAndAPart(talk, second, said);
    if (own && more?.unit.symbol === own.symbol && more.low.value > low.value)
      return { low, high: more.low, unit: own, to: more.to };
  }
  if (low.article) {
    const more = oneAndAPart(talk, low, said);
    if (more || !own) return more && withHigherEnd(talk, more, said);
  }
  if (!own)
    return againstRejected(talk, low, said) ?? toleranceBeforeUnit(talk, low, said) ?? sideBySide(talk, low, said);
  const half = andAPart(talk, own.to);
  return half
    ? withHigherEnd(talk, { low: { ...low, value: low.value + half.value }, unit: own, to: half.to }, said)
    : { low, unit: own, to: own.to };
}

const CHANGES =
  /\b(?:went|gone|sags?|sagged|dropp?(?:s|ed)?|falls?|fell|fallen|dips?|dipped|rises?|rose|risen|climb(?:s|ed)|jump(?:s|ed)|came|crept|slid|sank|swung)(?: (?:it|this|that|down|up))? from\s+$/;

/** `an inch or two`. */
function anInchOrTwo({ pieces, numbers }: Talk, own: UnitHeard): NumberRead | undefined {
  const two = pieces[own.to]?.lower === 'or' ? numbers.at(own.to + 1) : undefined;
  return two?.value === 2 && !two.figures ? two : undefined;
}

/** `two to four hundredths`: the first number counts the same parts. */
function inPartsOf(low: NumberRead, high: NumberRead): NumberRead | undefined {
  const parts = high.denominator ?? 0;
  if (parts === 0 || low.article || !Number.isInteger(low.value)) return undefined;
  const value = low.value / parts;
  return value > 0 && value < high.value ? { ...low, value } : undefined;
}

/** `plus or minus two from forty newton metres`: the tolerance is said first. */
function offsetFrom(talk: Talk, low: NumberRead, said: Said): Phrase | undefined {
  const { pieces, numbers } = talk;
  if (low.article || !/^(minus|-|−|±|take)$/.test(wordAt(pieces, low.from - 1)) || !BOTH_SIDES.test(said.before))
    return undefined;
  const own = unitAfter(talk, low.to, low, NOTHING_SAID);
  const from = own?.to ?? low.to;
  if (!/^(from|of|on|around|about)$/.test(wordAt(pieces, from))) return undefined;
  const middle = numbers.at(from + 1);
  const unit = middle && !middle.article ? unitAfter(talk, middle.to, middle, said) : undefined;
  if (!middle || (own && unit && own.symbol !== unit.symbol)) return undefined;
  const shared = unit ?? (own && { ...own, to: middle.to });
  return (
    shared && { low: middle, unit: shared, to: shared.to, tolerance: { up: low.value, down: low.value, to: shared.to } }
  );
}
const BOTH_SIDES = /(\bplus(,| or|\/)? minus|\bgive or take|±|\+\/[-−–])\s*$/;

/** `eight to ten seconds, sorry, minutes`: the unit alone is taken back. */
export function unitTakenBack(talk: Talk, phrase: Phrase, said: Said): Phrase {
  const { text, pieces } = talk;
  const end = pieces[phrase.to - 1]?.end ?? 0;
  const length = correctionLength(text.slice(end, end + 60));
  if (length === 0) return phrase;
  let at = phrase.to;
  while ((pieces[at]?.start ?? Infinity) < end + length) at++;
  if (pieces[at]?.type !== 'word') return phrase;
  const unit = unitAfter(talk, at, phrase.high ?? phrase.low, said);
  return unit ? { ...phrase, unit, to: unit.to } : phrase;
}

/** A number that ends its clause without a unit of its own: `12 volts to 14`, `from 60 psi down to 24 in steps`. */
function isTail(pieces: readonly Token[], number: NumberRead): boolean {
  return pieces[number.to]?.lower !== 'of' && countsNothing(pieces, number.to);
}

/** `thirty, not thirteen newton metres`: the unit is said once, after the number put aside. */
function againstRejected(talk: Talk, low: NumberRead, said: Said): Phrase | undefined {
  const past = pastRejected(talk, low.to);
  const unit = past === undefined ? undefined : unitAfter(talk, past, low, said);
  return unit && { low, unit, to: unit.to };
}

/** `38 ± 3 N·m`, `eighty plus or minus five newton metres`: the unit comes last. */
function toleranceBeforeUnit(talk: Talk, low: NumberRead, said: Said): Phrase | undefined {
  const tolerance = toleranceAfter(talk, low.to, low.value);
  const closed = /^[),]$/.test(textAt(talk.pieces, tolerance?.to ?? 0)) ? 1 : 0;
  const unit = tolerance && unitAfter(talk, tolerance.to + closed, low, said);
  return unit && tolerance ? { low, unit, to: unit.to, tolerance } : undefined;
}

/** `a turn and a half`: the article counts as one before units that it does not count for alone. */
function oneAndAPart(talk: Talk, low: NumberRead, said: Said): Phrase | undefined {
  const one = { value: 1, from: low.from, to: low.to, figures: false };
  const unit = unitAfter(talk, low.to, one, said);
  const flow = unit && aMinute(talk, unit, one);
  if (flow) return flow;
  const part = unit && andAPart(talk, unit.to);
  return unit && part ? { low: { ...one, value: 1 + part.value }, unit, to: part.to } : undefined;
}

/** `a millimetre and a half to two millimetres`: the other end of a range behind a value in parts. */
function withHigherEnd(talk: Talk, phrase: Phrase, said: Said): Phrase {
  const second = numberAfter(talk, phrase.to);
  if (!second || second.article || second.value <= phrase.low.value) return phrase;
  const unit = unitAfter(talk, second.to, second, said);
  if (unit ? unit.symbol !== phrase.unit.symbol : !isTail(talk.pieces, second)) return phrase;
  return { ...phrase, high: second, to: unit?.to ?? second.to };
}

/** `a litre and a half a minute`: the article belongs to the minute, or to the hour. */
function aMinute({ pieces, numbers }: Talk, unit: UnitHeard, one: NumberRead): Phrase | undefined {
  const part = unit.symbol === 'L' && pieces[unit.to]?.lower === 'and' ? numbers.at(unit.to + 1) : undefined;
  const before = part && /^an?$/.test(wordAt(pieces, part.to)) ? part.to : (part?.to ?? 0) - 1;
  const per = /^an?$/.test(wordAt(pieces, before))
    ? /^(minute|hour)$/.exec(wordAt(pieces, before + 1))?.[0]
    : undefined;
  if (!part || part.value >= 1 || !per) return undefined;
  const to = before + 2;
  const flow = unitHeard(unitOf('flow', per === 'hour' ? 'L/h' : 'L/min'), to, true);
  return { low: { ...one, value: 1 + part.value }, unit: flow, to };
}

/** `and a half` after the unit: `two turns and a quarter`, `an inch-and-three-quarters`. */
function andAPart(talk: Talk, at: number): NumberRead | undefined {
  const { pieces, numbers } = talk;
  const glued = (here: number) => (pieces[here]?.text === '-' && pieces[here]?.start === pieces[here - 1]?.end ? 1 : 0);
  const and = at + glued(at);
  if (pieces[and]?.lower !== 'and') return undefined;
  const from = and + 1 + glued(and + 1);
  const part = numbers.at(from);
  if (!part || part.value >= 1 || !(/^an?$/.test(wordAt(pieces, from)) || part.denominator)) return undefined;
  return unitAfter(talk, part.to, part, NOTHING_SAID) ? undefined : part;
}
