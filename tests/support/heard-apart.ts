import { findQuantities } from '../../src/core/heard/index.ts';
import { isSameAmount } from './heard-grid.ts';
import { UNIT_FORMS, type UnitForm } from './heard-units.ts';

/**
 * How two amounts of one unit are spoken that is said once: with the first, with the last, before both, or behind them.
 * All invented, by the grammar of English and not by any sentence.
 */

/** Two numbers of about one size, as they are spoken. */
const PAIRS: readonly (readonly [string, number, string, number])[] = [
  ['fifty-two', 52, 'sixty-nine', 69],
  ['seventy', 70, 'fifty-eight', 58],
  ['nineteen', 19, 'thirty-one', 31],
  ['a hundred and five', 105, 'sixty', 60],
  ['one-oh-five', 105, 'one-twenty', 120],
  ['two-forty-three', 243, 'two-fifty-one', 251],
  ['thirty-one point two', 31.2, 'thirty-one point two five', 31.25],
  ['one point four', 1.4, 'one point six', 1.6],
  ['five and a half', 5.5, 'seven', 7],
  ['twelve', 12, 'eight', 8],
  ['ten', 10, 'three', 3],
  ['45', 45, '38', 38],
  ['1.8', 1.8, '2.2', 2.2],
  ['0.979', 0.979, '0.982', 0.982],
  ['four hundred', 400, 'three-fifty', 350],
  ['thirty-four hundred', 3400, 'twenty-eight hundred', 2800],
];

/** Where the one is and where the other. */
const PLACES: readonly (readonly [string, string])[] = [
  ['at the front', 'at the back'],
  ['on the left', 'on the right'],
  ['on the first', 'on the second'],
  ['under the stem', 'on top'],
  ['for the small one', 'for the big one'],
  ['on the positive half', 'on the negative'],
  ['with the heater on it', 'without'],
  ['cold', 'hot'],
  ['on this side', 'over there'],
];

/** `{p}` is an amount with its unit, `{n}` the bare number of the other, `{q}` that of the first. */
const FIRST = [
  '{p} {here} and {n} {there}.',
  '{p} {here}, {n} {there}.',
  '{p} {here}, and {n} {there}.',
  'I had {p} {here} and {n} {there}.',
  'You want {p} {here} but {n} {there}.',
  'Put {p} {here}, and keep {n} {there}.',
  "It's {p} {here} and it was {n} {there}.",
  "It's {p} {here} where it was {n} new.",
  '{p} {here}. And {n} {there}.',
  "That gave me {p} {here}. The other one's {n}.",
  'It says {p} {here}, and I got {n} {there}.',
  '{p} {here}, {n} if it is an old one.',
  '{p} {here}, down to {n} {there}.',
  'so it is {p} {here} and {n} {there}',
  'Mine read {p} {here}, his read {n}.',
  'That is {p} {here}, against {n} {there}.',
  "{p} {here}, so that's fine, and {n} {there}.",
] as const;
/** In the next sentence. */
const NEXT = [
  '{p} {here}. I went to {n}.',
  '{p} {here}. The book says {n}.',
  '{p} {here}. I would go {n}.',
  '{p} {here}. Call it {n}.',
  '{p} {here}. Now {n}.',
  '{p} {here}. {N}? Not on mine.',
  '{p} {here}. Mine has {n}.',
  '{p} {here}. New ones are {n}.',
  '{p} {here}. Back it off to {n}.',
  '{p} {here}. After an hour it read {n}.',
  '{p} {here}. It came back as {n} {there}.',
  '{p} {here}. {N} {there}.',
  '{p} {here}. Same job on the other one, {n}.',
  '{p} {here}. The other one wanted {n}.',
  '{p} {here}. His was {n}.',
  '{p} {here}. It should have been {n}.',
  '{p} {here}. I have seen {n} {there}.',
] as const;
const LAST = [
  '{q} {here} and {s} {there}.',
  '{q} {here}, {s} {there}.',
  '{q} {here}, and {s} {there}.',
  'I had {q} {here} and {s} {there}.',
  "It's {q} {here} and it was {s} {there}.",
  'Big one {q}, little one {s}.',
  'It says {q} {here}, and I got {s} {there}.',
] as const;
const BEFORE = [
  "It's marked in {many}, {q} {here} and {n} {there}.",
  'The scale is in {many}: {q} {here}, {n} {there}.',
  'In {many}, {q} {here}.',
  'Meter on {many}, and I get {q} {here}, {n} {there}.',
] as const;
const BEHIND = [
  'I get {q} {here} and {n} {there}. {Many}.',
  'I get {q} {here} and {n} {there}. {Many}, yeah.',
  'I get {q} {here} and {n} {there}, {many}.',
  'I get {q} {here} and {n} {there}. {Many}, that is.',
  'I get {q} {here} and {n} {there}, in {many}.',
  "I get {q} {here} and {n} {there}. That's {many}.",
  "I get {q} {here} and {n} {there}. That's in {many}.",
  'I get {q} {here} and {n} {there}. All {many}.',
  'I get {q} {here}, {many}.',
  'It reads {q}. {Many}.',
] as const;

interface Apart {
  readonly text: string;
  readonly says: string;
  readonly where: 'first' | 'next' | 'last' | 'before' | 'behind';
  readonly unit: UnitForm;
  readonly pair: string;
  readonly place: string;
  readonly values: readonly number[];
}

const TEMPLATES = [
  ...FIRST.map((says) => ({ where: 'first' as const, says })),
  ...NEXT.map((says) => ({ where: 'next' as const, says })),
  ...LAST.map((says) => ({ where: 'last' as const, says })),
  ...BEFORE.map((says) => ({ where: 'before' as const, says })),
  ...BEHIND.map((says) => ({ where: 'behind' as const, says })),
];

/** Nobody leaves these out: what is counted, how long, how far, what is mixed; nor are they the name of a scale. */
const NEVER_LEFT_OUT = /^(count|time|distance|ratio|flow|speed)$/;

/** Every pair of amounts with its unit said once; with a step, every so many of them. */
export function* apart(step = 1): Generator<Apart> {
  let at = 0;
  for (const { where, says } of TEMPLATES)
    for (const of of UNIT_FORMS)
      for (const [first, low, second, high] of PAIRS)
        for (const [here, there] of PLACES) {
          if (Math.min(low, high) < of.least || Math.max(low, high) > of.most) continue;
          // A handful of things is told in a sentence of its own.
          if (where === 'next' && high < 5 && Number.isInteger(high)) continue;
          if (NEVER_LEFT_OUT.test(of.kind) && of.symbol !== 'ms') continue;
          if (at++ % step > 0) continue;
          const text = says
            .replace('{p}', `${first} ${of.many}`)
            .replace('{s}', `${second} ${of.many}`)
            .replace('{q}', first)
            .replace('{n}', second)
            .replace(
              '{N}',
              second.replace(/^[a-z]/, (letter) => letter.toUpperCase()),
            )
            .replace('{here}', here)
            .replace('{there}', there)
            .replace('{many}', of.many)
            .replace(
              '{Many}',
              of.many.replace(/^[a-z]/, (letter) => letter.toUpperCase()),
            )
            .replace(/^[a-z]/, (letter) => (says.startsWith('so ') ? letter : letter.toUpperCase()));
          const values = /\{[nNs]\}/.test(says) ? [low, high] : [low];
          yield { text, says, where, unit: of, pair: `${first} | ${second}`, place: here, values };
        }
}

/** True where both amounts are heard, and nothing else. */
export function areHeard({ text, unit, values }: Apart): boolean {
  const heard = findQuantities(text);
  return (
    heard.length === values.length &&
    values.every((value) => heard.some((each) => isSameAmount(each, unit, value, value)))
  );
}
