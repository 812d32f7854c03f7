import { inTwoUnits } from './compound.ts';
import type { NumberRead, Numbers } from './number.ts';
import type { Phrase } from './number-and-unit.ts';
import { NOTHING_SAID, type Said, type Surroundings } from './said.ts';
import { scaleBefore } from './scale-before.ts';
import { mayConnect, numberAfter } from './second-number.ts';
import { guessedFurther, inAnotherUnit, sideBySide } from './side-by-side.ts';
import { correctionLength, pastRejected } from './taken-back.ts';
import type { Token } from './tokens.ts';
import { toleranceAfter } from './tolerance.ts';
import { unitAfter } from './unit-heard.ts';
import { unitUnderstood } from './unit-understood.ts';

/** The numbers and the unit that begin at a token; nothing where none do. */
export function phraseAt(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  surroundings: Surroundings,
  at: number,
): Phrase | undefined {
  const low = numbers.at(at);
  if (!low) return undefined;
  const compound = inTwoUnits(pieces, numbers, low);
  if (compound) return compound;
  const said = surroundings.of(at);
  const offset = offsetFrom(text, pieces, numbers, low, said);
  if (offset) return offset;
  const own =
    unitAfter(pieces, low.to, low, text, said) ??
    (low.article ? undefined : (scaleBefore(low.to, said) ?? unitUnderstood(pieces, low, said)));
  const end = own?.to ?? low.to;
  const opened = mayConnect(pieces[end]) ? OPENED.exec(said.before)?.[1] : undefined;
  const second = numberAfter(pieces, numbers, end, opened);
  if (!own && second && low.value >= second.value) {
    const counted = inPartsOf(low, second);
    const unit = counted && unitAfter(pieces, second.to, second, text, said);
    if (counted && unit) return { low: counted, high: second, unit, to: unit.to };
  }
  const other = own && second ? inAnotherUnit(text, pieces, low, own, second, said) : undefined;
  if (own && other) return { low, high: other.high, unit: own, to: other.to };
  const further = own ? guessedFurther(text, pieces, numbers, low, own, said) : undefined;
  if (own && further) return { low, high: further.high, unit: own, to: further.to };
  if (second && !second.article) {
    const unit = unitAfter(pieces, second.to, second, text, said);
    const same = unit && (!own || own.symbol === unit.symbol || own.kind === unit.kind);
    if (unit && same && second.value > low.value && (!own || own.symbol === unit.symbol))
      return { low, high: second, unit, to: unit.to };
    // `from 50 down to 44`: the two ends of a range, said from above.
    if (unit && same && opened === 'from' && second.value < low.value)
      return { low: { ...second, from: low.from }, high: low, unit, to: unit.to };
    if (own && !unit && isTail(pieces, second, opened)) {
      if (second.value > low.value) return { low, high: second, unit: own, to: second.to };
      if (opened === 'from' && second.value < low.value)
        return { low: { ...second, from: low.from }, high: low, unit: own, to: second.to };
    }
    if (!own) return toleranceBeforeUnit(text, pieces, numbers, low, said);
  }
  if (second?.article) {
    // `an inch to an inch and a half`.
    const more = oneAndAPart(text, pieces, numbers, second, said);
    if (own && more?.unit.symbol === own.symbol && more.low.value > low.value)
      return { low, high: more.low, unit: own, to: more.to };
  }
  if (!own && low.article) return oneAndAPart(text, pieces, numbers, low, said);
  if (!own)
    return (
      againstRejected(text, pieces, numbers, low, said) ??
      toleranceBeforeUnit(text, pieces, numbers, low, said) ??
      sideBySide(text, pieces, numbers, low, said)
    );
  const half = andAPart(text, pieces, numbers, own.to);
  return half
    ? { low: { ...low, value: low.value + half.value }, unit: own, to: half.to }
    : { low, unit: own, to: own.to };
}

/** `two to four hundredths`: the first number counts the same parts. */
function inPartsOf(low: NumberRead, high: NumberRead): NumberRead | undefined {
  const parts = high.denominator ?? 0;
  if (parts === 0 || low.article || !Number.isInteger(low.value)) return undefined;
  const value = low.value / parts;
  return value > 0 && value < high.value ? { ...low, value } : undefined;
}

/** `plus or minus two from forty newton metres`: the tolerance is said first. */
function offsetFrom(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  low: NumberRead,
  said: Said,
): Phrase | undefined {
  if (low.article || !/^(minus|-|−|±|take)$/.test(pieces[low.from - 1]?.lower ?? '') || !BOTH_SIDES.test(said.before))
    return undefined;
  const own = unitAfter(pieces, low.to, low, text, NOTHING_SAID);
  const from = own?.to ?? low.to;
  if (!/^(from|of|on|around|about)$/.test(pieces[from]?.lower ?? '')) return undefined;
  const middle = numbers.at(from + 1);
  const unit = middle && !middle.article ? unitAfter(pieces, middle.to, middle, text, said) : undefined;
  if (!middle || (own && unit && own.symbol !== unit.symbol)) return undefined;
  const shared = unit ?? (own && { ...own, to: middle.to });
  return (
    shared && { low: middle, unit: shared, to: shared.to, tolerance: { up: low.value, down: low.value, to: shared.to } }
  );
}
const BOTH_SIDES = /(\bplus(,| or|\/)? minus|\bgive or take|±|\+\/[-−–])\s*$/;

/** `eight to ten seconds, sorry, minutes`: the unit alone is taken back. */
export function unitTakenBack(text: string, pieces: readonly Token[], phrase: Phrase, said: Said): Phrase {
  const end = pieces[phrase.to - 1]?.end ?? 0;
  const length = correctionLength(text.slice(end, end + 60));
  if (length === 0) return phrase;
  let at = phrase.to;
  while ((pieces[at]?.start ?? Infinity) < end + length) at++;
  if (pieces[at]?.type !== 'word') return phrase;
  const unit = unitAfter(pieces, at, phrase.high ?? phrase.low, text, said);
  return unit ? { ...phrase, unit, to: unit.to } : phrase;
}

/** `from about thirty miles an hour down to five`. */
export const OPENED = /\b(between|from)\W+(?:(?:about|around|roughly|approximately|say|maybe|the)\W+)*$/;
/** Words that no number counts: after them and before a mark a number has ended. */
const ENDS_A_NUMBER =
  /^(when|while|as|if|and|or|but|so|then|in|on|at|with|without|before|after|until|till|by|over|under|for|because|where|again|cold|hot)$/;

/** A number that ends its clause without a unit of its own: `12 volts to 14`, `from 60 psi down to 24 in steps`. */
function isTail(pieces: readonly Token[], number: NumberRead, opened: string | undefined): boolean {
  const next = pieces[number.to];
  return !next || next.type === 'mark' || (opened === 'from' && ENDS_A_NUMBER.test(next.lower));
}

/** `thirty, not thirteen newton metres`: the unit is said once, after the number put aside. */
function againstRejected(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  low: NumberRead,
  said: Said,
): Phrase | undefined {
  const past = pastRejected(pieces, numbers, low.to);
  const unit = past === undefined ? undefined : unitAfter(pieces, past, low, text, said);
  return unit && { low, unit, to: unit.to };
}

/** `38 ± 3 N·m`, `eighty plus or minus five newton metres`: the unit comes last. */
function toleranceBeforeUnit(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  low: NumberRead,
  said: Said,
): Phrase | undefined {
  const tolerance = toleranceAfter(text, pieces, numbers, low.to, low.value);
  const closed = /^[),]$/.test(pieces[tolerance?.to ?? 0]?.text ?? '') ? 1 : 0;
  const unit = tolerance && unitAfter(pieces, tolerance.to + closed, low, text, said);
  return unit && tolerance ? { low, unit, to: unit.to, tolerance } : undefined;
}

/** `a turn and a half`: the article counts as one before units that it does not count for alone. */
function oneAndAPart(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  low: NumberRead,
  said: Said,
): Phrase | undefined {
  const one = { value: 1, from: low.from, to: low.to, figures: false };
  const unit = unitAfter(pieces, low.to, one, text, said);
  const part = unit && andAPart(text, pieces, numbers, unit.to);
  return unit && part ? { low: { ...one, value: 1 + part.value }, unit, to: part.to } : undefined;
}

/** `and a half` after the unit: `two turns and a quarter`. */
function andAPart(text: string, pieces: readonly Token[], numbers: Numbers, at: number): NumberRead | undefined {
  if (pieces[at]?.lower !== 'and' || pieces[at + 1]?.lower !== 'a') return undefined;
  const part = numbers.at(at + 1);
  if (!part || part.value >= 1) return undefined;
  return unitAfter(pieces, part.to, part, text, NOTHING_SAID) ? undefined : part;
}
