import { type Diagnostic, PLACEHOLDER, type Place } from '../model/index.ts';
import { tell } from './faults.ts';

/** What people write where they do not know yet, when nothing stands beside it. */
const NOT_YET = /^\s*(?:\?+|…|\.{3}|todo|tbd|xxx+)\s*$/i;

/** What a starting file left in a text, or somebody who did not know yet, if anything. */
export function placeholderLeft(text: string, place: Place): Diagnostic[] {
  return isPlaceholder(text)
    ? [
        tell(
          'placeholder-left',
          place,
          NOT_YET.test(text) ? `"${text.trim()}" says nothing yet` : `"${text.trim()}" is left from the starting file`,
          'write what is true of your own shop, copied from the source',
        ),
      ]
    : [];
}

/** True where somebody still has to write. */
export function isPlaceholder(value: unknown): boolean {
  return typeof value === 'string' && (value.includes(PLACEHOLDER) || NOT_YET.test(value));
}

/** Every placeholder below a raw value, in order. @param placeOf a path */
export function* placeholdersIn(
  value: unknown,
  placeOf: (path: readonly (string | number)[]) => Place,
  path: readonly (string | number)[] = [],
): Generator<Diagnostic> {
  if (typeof value === 'string') yield* placeholderLeft(value, placeOf(path));
  else if (Array.isArray(value))
    for (const [index, each] of value.entries()) yield* placeholdersIn(each, placeOf, [...path, index]);
  else if (typeof value === 'object' && value !== null)
    for (const [key, each] of Object.entries(value)) yield* placeholdersIn(each, placeOf, [...path, key]);
}
