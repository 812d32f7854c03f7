import { fail, ok, type Parsed } from '../time/index.ts';
import { brief, MOST_TEXT } from './imported.ts';

/** Deeper than any timeline or transcript is nested. A parser holds every open list at once. */
const DEEPEST = 500;

/**
 * JSON from outside, held to a length and a depth before it is parsed.
 *
 * @param what it is to be, for the message
 */
export function parseJsonText(text: string, what: string): Parsed<unknown> {
  if (text.length > MOST_TEXT)
    return fail(`the file is too long for ${what}`, `take the ${what.replace(/^an? /, '')} of one recording`);
  if (isDeep(text))
    return fail(`the file is nested more than ${DEEPEST} deep, which ${what} never is`, 'export it again');
  try {
    return ok(JSON.parse(text) as unknown);
  } catch (error) {
    return fail(
      `the file is not sound JSON: ${brief(error instanceof Error ? error.message : String(error))}`,
      'export it again',
    );
  }
}

const [QUOTE, BACKSLASH, LIST, END_LIST, OBJECT, END_OBJECT] = [34, 92, 91, 93, 123, 125];

/** Counts brackets outside of strings; a pattern would overflow on a string of megabytes. */
function isDeep(text: string): boolean {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    const sign = text.charCodeAt(i);
    if (sign === QUOTE) {
      for (i++; i < text.length && text.charCodeAt(i) !== QUOTE; i++) if (text.charCodeAt(i) === BACKSLASH) i++;
    } else if (sign === LIST || sign === OBJECT) {
      depth++;
      if (depth > DEEPEST) return true;
    } else if (sign === END_LIST || sign === END_OBJECT) depth--;
  }
  return false;
}
