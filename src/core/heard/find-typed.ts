import type { HeardQuantity } from './heard-quantity.ts';
import { sideTyped } from './limits/index.ts';
import { searchWith } from './search-with.ts';

/**
 * The quantities in what somebody types who looks for one, such as `at least 30 psi`: as `findQuantities`, but that a limit is told by
 * words next to its value. What comes of a thing that is over it is said, not typed; without the rules for that a page's search loads an eighth less.
 */
export function findTyped(text: string): readonly HeardQuantity[] {
  return searchWith(sideTyped, text).quantities;
}
