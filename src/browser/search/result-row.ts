/** A step as the search index gives it. */
export interface FoundStep {
  readonly url: string;
  readonly excerpt: string;
}

/**
 * A found step as a row: the one the page was made with, with the lesson and chapter it is from and the words found.
 * Its values are those of the page, so they are narrowed to the chosen machine as everywhere.
 *
 * @param rows of every step, by the address they lead to
 */
export function resultRow({ url, excerpt }: FoundStep, rows: ReadonlyMap<string, HTMLLIElement>): HTMLLIElement[] {
  const own = rows.get(new URL(url, location.href).href);
  if (!own) return [];
  const row = own.cloneNode(true) as HTMLLIElement;
  row.querySelector('.from')?.removeAttribute('hidden');
  const words = document.createElement('span');
  words.className = 'found-words';
  words.append(...highlight(excerpt));
  row.querySelector('.what')?.append(words);
  return [row];
}

/** The excerpt's text with its marks, and no other markup: it is made from the content, not trusted as HTML. */
function highlight(excerpt: string): Node[] {
  const parsed = new DOMParser().parseFromString(excerpt, 'text/html');
  return [...parsed.body.childNodes].map((node) => {
    const text = document.createTextNode(node.textContent ?? '');
    if (node.nodeName !== 'MARK') return text;
    const mark = document.createElement('mark');
    mark.append(text);
    return mark;
  });
}
