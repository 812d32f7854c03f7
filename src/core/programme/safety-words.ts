/** The words of caution that every lesson, handout and burnt programme carries; the first one stands on each card too. */
export const SAFETY_WORDS = [
  'The manufacturer’s service manual for the exact model and year decides.',
  'Local law and licensed practice come first.',
  'Whoever cannot do a step safely takes the machine to a shop.',
] as const;
