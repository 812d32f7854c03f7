import { exact, times, toNumber } from '../spec/index.ts';
import type { NumberRead } from './number-read.ts';
import { NOTHING_SAID } from './said.ts';
import type { Talk } from './talk.ts';
import { type Token, textAt, wordAt } from './tokens.ts';
import { unitAfter } from './unit-heard.ts';
import type { UnitHeard } from './unit-spoken.ts';

/** How far a value may lie from the one said, in its unit. */
export interface Tolerance {
  readonly up: number;
  readonly down: number;
  /** First token not taken. */
  readonly to: number;
}

const TO_BOTH_SIDES: readonly (readonly (readonly string[])[])[] = [
  [['±']],
  [['+'], ['/'], ['-', '−', '–']],
  [['+'], ['-', '−', '–']],
  [['plus'], ['or', '/'], ['minus']],
  [['plus'], ['minus']],
  [['give'], ['or'], ['take']],
];

/** `plus or minus five`, `± 5`, `give or take five newton metres`, `plus five, minus two`, `-0/+2`, `five either way`. */
export function toleranceAfter(talk: Talk, at: number, of: number, unit?: UnitHeard): Tolerance | undefined {
  const { pieces, numbers } = talk;
  const word = (i: number) => wordAt(pieces, i);
  const amount: Amount = (from, parts = false) => {
    // `plus two, minus nothing`.
    if (/^(nothing|none)$/.test(word(from))) return { value: 0, from, to: from + 1, figures: false };
    const number = numbers.at(from);
    if (!number || number.article) return undefined;
    const cent = perCent(pieces, number.to);
    if (cent > 0 || parts)
      return { ...number, value: toNumber(times(exact(number.value), exact(`${of}/100`))), to: number.to + cent };
    const own = unit && unitAfter(talk, number.to, number, NOTHING_SAID);
    if (own && own.symbol !== unit.symbol) return undefined;
    return own ? { ...number, to: own.to } : number;
  };
  let i = at;
  while (/^[,(]$/.test(textAt(pieces, i))) i++;
  // `to within one degree either way`.
  if (word(i) === 'to' && word(i + 1) === 'within') return eitherWay(pieces, i + 2, amount);
  const both = TO_BOTH_SIDES.find((said) => said.every((part, k) => part.includes(word(i + k))))?.length ?? 0;
  if (both > 0) {
    const number = amount(i + both);
    return number && { up: number.value, down: number.value, to: number.to };
  }
  let first = readSigned(pieces, i, amount);
  if (!first) return eitherWay(pieces, i, amount);
  let j = first.to;
  while (/^[,/]$/.test(textAt(pieces, j)) || word(j) === 'and') j++;
  const second = readSigned(pieces, j, amount);
  if (!second || second.sign === first.sign) return undefined;
  // `plus ten, minus six per cent`: of both.
  if (isPerCent(pieces, second.to) && !isPerCent(pieces, first.to)) {
    const shared = readSigned(pieces, i, (from) => amount(from, true));
    if (shared) first = shared;
  }
  const [up, down] = first.sign > 0 ? [first, second] : [second, first];
  return { up: up.value, down: down.value, to: second.to };
}

/** @param parts a number without a unit is one of hundredths */
type Amount = (from: number, parts?: boolean) => NumberRead | undefined;

/** So many tokens `per cent` takes here. */
function perCent(pieces: readonly Token[], at: number): number {
  if (/^(%|percent)$/.test(wordAt(pieces, at))) return 1;
  return pieces[at]?.lower === 'per' && pieces[at + 1]?.lower === 'cent' ? 2 : 0;
}

/** True behind `per cent`. */
function isPerCent(pieces: readonly Token[], to: number): boolean {
  return perCent(pieces, to - 1) === 1 || perCent(pieces, to - 2) === 2;
}

/** So many words can stand between a value and its tolerance. */
const WORDS_BETWEEN = 5;

/**
 * Where the tolerance of a value stands behind what was measured, or how: `ninety millilitres of sealant, give or take
 * ten`, `18 Ω cold, plus or minus one`. The token of the comma; nothing where no such words lead there.
 */
export function behindTheThing(pieces: readonly Token[], at: number): number | undefined {
  let between = false;
  for (let to = at; to <= at + WORDS_BETWEEN; to++) {
    const token = pieces[to];
    // `millimetres on the intake plus or minus`: captions have no comma.
    if (to > at && token?.lower === 'plus' && /^(or|minus)$/.test(wordAt(pieces, to + 1))) return to;
    between ||= token?.lower === 'between';
    if (between && token?.lower === 'and') continue;
    if (to > at && token?.text === ',')
      return /^(plus|give|±|\+)$/.test(wordAt(pieces, to + 1)) ||
        (wordAt(pieces, to + 1) === 'to' && wordAt(pieces, to + 2) === 'within')
        ? to
        : undefined;
    if (token?.type !== 'word' || /^(and|or|but|then|to|is|are|not)$/.test(token.lower)) return undefined;
  }
  return undefined;
}

/** `plus two`, `−0`. */
function readSigned(pieces: readonly Token[], at: number, amount: Amount) {
  const said = wordAt(pieces, at);
  const sign = /^(\+|plus)$/.test(said) ? 1 : /^([-−–]|minus)$/.test(said) ? -1 : 0;
  const number = sign === 0 ? undefined : amount(at + 1);
  return number && { sign, value: number.value, to: number.to };
}

/** `five either way`. */
function eitherWay(pieces: readonly Token[], at: number, amount: Amount): Tolerance | undefined {
  const number = amount(at);
  if (!number || pieces[number.to]?.lower !== 'either' || !/^(way|side)$/.test(wordAt(pieces, number.to + 1)))
    return undefined;
  return { up: number.value, down: number.value, to: number.to + 2 };
}
