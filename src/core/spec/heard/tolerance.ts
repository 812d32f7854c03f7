import { exact, times, toNumber } from '../exact.ts';
import type { NumberRead, Numbers } from './number.ts';
import type { Token } from './tokens.ts';
import { type UnitHeard, unitAfter } from './unit-heard.ts';

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

/** `plus or minus five`, `± 5`, `give or take five newton metres`, `plus five, minus two`, `+5/-2`. */
export function toleranceAfter(
  text: string,
  pieces: readonly Token[],
  numbers: Numbers,
  at: number,
  of: number,
  unit?: UnitHeard,
): Tolerance | undefined {
  const word = (i: number) => pieces[i]?.lower ?? '';
  const amount = (from: number): NumberRead | undefined => {
    const number = numbers.at(from);
    if (!number || number.article) return undefined;
    if (/^(%|percent)$/.test(word(number.to)))
      return { ...number, value: toNumber(times(exact(number.value), exact(`${of}/100`))), to: number.to + 1 };
    if (word(number.to) === 'per' && word(number.to + 1) === 'cent')
      return { ...number, value: toNumber(times(exact(number.value), exact(`${of}/100`))), to: number.to + 2 };
    const own = unit && unitAfter(pieces, number.to, number, text, { before: '', after: () => '' });
    if (own && own.symbol !== unit.symbol) return undefined;
    return own ? { ...number, to: own.to } : number;
  };
  let i = at;
  while (/^[,(]$/.test(pieces[i]?.text ?? '')) i++;
  const both = TO_BOTH_SIDES.find((said) => said.every((part, k) => part.includes(word(i + k))))?.length ?? 0;
  if (both > 0) {
    const number = amount(i + both);
    return number && { up: number.value, down: number.value, to: number.to };
  }
  if (pieces[i]?.text !== '+' && word(i) !== 'plus') return undefined;
  const up = amount(i + 1);
  if (!up) return undefined;
  let j = up.to;
  while (/^[,/]$/.test(pieces[j]?.text ?? '') || word(j) === 'and') j++;
  const down = /^[-−–]$/.test(pieces[j]?.text ?? '') || word(j) === 'minus' ? amount(j + 1) : undefined;
  return down && { up: up.value, down: down.value, to: down.to };
}
