import { type Token, wordAt } from './tokens.ts';

/** The token after `sixty-odd`, `fifty or so`, `nine and a bit`. */
export function pastRoughly(pieces: readonly Token[], at: number): number {
  const word = (i: number) => wordAt(pieces, i);
  if (word(at) === '-' && /^(odd|ish)$/.test(word(at + 1))) return at + 2;
  if (word(at) === 'odd' && pieces[at + 1]?.type !== 'word') return at + 1;
  if (word(at) === 'or' && word(at + 1) === 'so') return at + 2;
  if (word(at) === 'and' && word(at + 1) === 'a' && /^(bit|touch|hair)$/.test(word(at + 2))) return at + 3;
  return at;
}
