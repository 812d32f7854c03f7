import type { SearchWords } from './search-words.ts';

/** A piece of an excerpt; marked where it is what was looked for. */
export interface ExcerptPiece {
  readonly text: string;
  readonly mark?: true;
}

/**
 * The sentence of a text that holds most of the words looked for, whole, so that it reads as it was written and keeps its
 * values; nothing where none holds any.
 *
 * @param terms as `SearchWords` writes them
 * @param by tells sentences apart
 */
export function excerptOf(
  text: string,
  terms: ReadonlySet<string>,
  words: SearchWords,
  by: Intl.Segmenter,
): ExcerptPiece[] {
  const sentences = [...by.segment(text)].map(({ segment }) => {
    const sentence = segment.trim();
    const found = words.of(sentence).filter(({ term }) => terms.has(term));
    return { sentence, found, held: new Set(found.map(({ term }) => term)).size };
  });
  const best = sentences.toSorted((a, b) => b.held - a.held)[0];
  return best && best.held > 0 ? marked(best.sentence, best.found) : [];
}

function marked(text: string, found: readonly { readonly start: number; readonly end: number }[]): ExcerptPiece[] {
  const pieces: ExcerptPiece[] = [];
  let at = 0;
  for (const { start, end } of found) {
    if (start < at) continue;
    if (start > at) pieces.push({ text: text.slice(at, start) });
    pieces.push({ text: text.slice(start, end), mark: true });
    at = end;
  }
  return at < text.length ? [...pieces, { text: text.slice(at) }] : pieces;
}
