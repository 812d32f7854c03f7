/**
 * The first position in a row from which on a test holds, by halving.
 *
 * @param holds false for all before that position, true from there on
 * @returns the length of the row where it holds for none
 */
export function firstWhere<T>(row: readonly T[], holds: (one: T) => boolean): number {
  let low = 0;
  let high = row.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    const one = row[middle];
    if (one === undefined || holds(one)) high = middle;
    else low = middle + 1;
  }
  return low;
}
