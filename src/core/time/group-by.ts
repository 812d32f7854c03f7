/** Values by a key, in the order in which each is met first. */
export function groupBy<T>(values: readonly T[], keyOf: (value: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const value of values) {
    const key = keyOf(value);
    const own = groups.get(key);
    if (own) own.push(value);
    else groups.set(key, [value]);
  }
  return groups;
}
