/**
 * The last of an ordered row whose number is not past a value, by halving.
 *
 * @param ordered by `key`, rising
 * @returns nothing where all lie past it
 */
export function lastUpTo<T>(ordered: readonly T[], value: number, key: (one: T) => number): T | undefined {
  let low = 0;
  let high = ordered.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const one = ordered[middle];
    if (one !== undefined && key(one) <= value) low = middle + 1;
    else high = middle;
  }
  return ordered[low - 1];
}
