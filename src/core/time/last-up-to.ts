import { firstWhere } from './first-where.ts';

/**
 * The last of an ordered row whose number is not past a value, by halving.
 *
 * @param ordered by `key`, rising
 * @returns nothing where all lie past it
 */
export function lastUpTo<T>(ordered: readonly T[], value: number, key: (one: T) => number): T | undefined {
  return ordered[firstWhere(ordered, (one) => key(one) > value) - 1];
}
