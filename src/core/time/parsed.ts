/** What a parser gives: a value, or what is wrong with the text and what to do about it. */
export type Parsed<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: string; readonly help: string };

export function ok<T>(value: T): Parsed<T> {
  return { ok: true, value };
}

/**
 * @param problem one line that stands alone, small letter, no full stop
 * @param help what to do, stated
 */
export function fail(problem: string, help: string): { ok: false; problem: string; help: string } {
  return { ok: false, problem, help };
}
