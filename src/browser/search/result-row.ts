import type { Hit } from '../../core/search/index.ts';

/**
 * A hit as a row: the one the page was made with, with the lesson and chapter it is from and the sentence found. Its
 * values are those of the page, so they are narrowed to the chosen machine as everywhere.
 *
 * @param rows of every step and spec, by the record they show
 */
export function resultRow({ id, excerpt }: Hit, rows: ReadonlyMap<string, HTMLLIElement>): HTMLLIElement[] {
  const own = rows.get(id);
  if (!own) return [];
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
  return [row];
}
