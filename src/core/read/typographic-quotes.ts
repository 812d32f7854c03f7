import type { Diagnostic, Place } from '../model/index.ts';
import { tell } from './faults.ts';

/** What is wrong with a value in typographic quotes, and what to type. @param bare the value without them */
export function inQuotes(bare: string): { readonly message: string; readonly help: string } {
  return {
    message: 'stands in typographic quotes, which YAML reads as part of it',
    help: `write ${bare}, or "${bare}" with straight quotes`,
  };
}

/** Opening marks with those that may close them, as they are used in different languages. */
const PAIRS: readonly (readonly [string, string])[] = [
  ['“', '”'],
  ['”', '”'],
  ['„', '“”‟'],
  ['«', '»'],
  ['»', '«'],
  ['‘', '’'],
  ['’', '’'],
  ['‚', '‘’'],
];
const MARKS = /[“”„‟«»‘’‚‛]/;

/**
 * A text that a pair of typographic quotes encloses from its first to its last character, without them; nothing for a
 * quotation within a text, such as `“Snug” and “tight”` or `What “snug” means`.
 */
export function enclosedInQuotes(text: string): string | undefined {
  const value = text.trim();
  const closing = PAIRS.find(([open]) => value.startsWith(open))?.[1];
  const last = value.at(-1) ?? '';
  if (closing === undefined || value.length < 2 || !closing.includes(last)) return undefined;
  const bare = value.slice(1, -1);
  // An apostrophe within a word is no mark; any other mark may close what the first one opened.
  return MARKS.test(bare.replace(/(?<=\p{L})’(?=\p{L})/gu, '')) ? undefined : bare.trim();
}

/** Every value below a raw one that stands whole in typographic quotes. @param placeOf a path */
export function* valuesInQuotes(
  value: unknown,
  placeOf: (path: readonly (string | number)[]) => Place,
  path: readonly (string | number)[] = [],
): Generator<Diagnostic> {
  if (typeof value === 'string') {
    const bare = enclosedInQuotes(value);
    if (bare === undefined || bare === '') return;
    const { message, help } = inQuotes(bare);
    const name = path.filter((part) => typeof part === 'string').at(-1) ?? 'it';
    yield tell('value-wrong', placeOf(path), `${name}: ${value.trim()} ${message}`, help);
  } else if (Array.isArray(value))
    for (const [index, each] of value.entries()) yield* valuesInQuotes(each, placeOf, [...path, index]);
  else if (typeof value === 'object' && value !== null)
    for (const [key, each] of Object.entries(value)) yield* valuesInQuotes(each, placeOf, [...path, key]);
}

/** A raw value, each text in it that stands whole in typographic quotes without them. */
export function withoutQuotes(value: unknown): unknown {
  if (typeof value === 'string') return enclosedInQuotes(value) ?? value;
  if (Array.isArray(value)) return value.map(withoutQuotes);
  if (typeof value !== 'object' || value === null || Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, withoutQuotes(each)]));
}
