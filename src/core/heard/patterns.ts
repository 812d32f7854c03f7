/** One of the words of some lists, as a part of an expression; a word may hold a pattern without blanks. */
export const anyOf = (...lists: readonly string[]) => `(?:${lists.join(' ').split(/\s+/).join('|')})`;
