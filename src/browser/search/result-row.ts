import type { ExcerptPiece } from '../../core/search/index.ts';

/** What was found as a row, with the lesson and chapter it is from and the sentence found. */
export function resultRow(own: HTMLLIElement, excerpt: readonly ExcerptPiece[]): HTMLLIElement {
  const row = own.cloneNode(true) as HTMLLIElement;
  row.querySelector('.from')?.removeAttribute('hidden');
  if (excerpt.length > 0) {
    const words = document.createElement('span');
    words.className = 'found-words';
    words.append(
      ...excerpt.map(({ text, mark }) => {
        if (!mark) return text;
        const marked = document.createElement('mark');
        marked.append(text);
        return marked;
      }),
    );
    row.querySelector('.what')?.append(words);
  }
  return row;
}
