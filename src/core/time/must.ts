/**
 * A value that cannot be missing, where the type alone does not say so: an index out of the very row it is looked up in.
 *
 * @param what in a few words, for whoever has to mend the program
 * @throws Error when it is missing after all, instead of going on with a value that means something else
 */
export function must<T>(value: T | null | undefined, what: string): T {
  if (value === null || value === undefined) throw new Error(`${what} is missing`);
  return value;
}
