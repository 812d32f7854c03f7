import type { HeardQuantity } from './heard-quantity.ts';
import { sideOf } from './limits/index.ts';
import { type Searched, searchWith } from './search-with.ts';

/**
 * Every quantity in a stretch of English, written or spoken: numbers in figures and in words, ranges, tolerances,
 * limits and fractions, each with its unit. Sizes of tools, threads and containers, part numbers, grades, prices,
 * model names, clock times and vague counts are left out.
 *
 * @param earlier what was said before it; it can say what a limit is a limit of
 */
export function findQuantities(text: string, earlier = ''): readonly HeardQuantity[] {
  return searchQuantities(text, earlier).quantities;
}

/** What hears the quantities in a text as `findQuantities` does, or knows them from an earlier time. */
export type Hear = (text: string) => readonly HeardQuantity[];

/** As `findQuantities`, with what was left out and why. Takes a time that grows as the text does. */
export function searchQuantities(text: string, earlier = ''): Searched {
  return searchWith(sideOf, text, earlier);
}
