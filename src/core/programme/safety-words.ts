import { english } from '../locale/index.ts';

/** The words of caution that every lesson, handout and burnt programme carries; the first one stands on each card too. */
export const SAFETY_WORDS = [
  english('The manufacturer’s service manual for the exact model and year decides.'),
  english('Local law and licensed practice come first.'),
  english('If you cannot do a step safely, take the machine to a shop.'),
] as const;
