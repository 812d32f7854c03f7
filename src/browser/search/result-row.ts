import type { Found } from './step-search.ts';

/** A found step as a row of the list, like those the page was made with. */
export function resultRow({ url, excerpt, meta }: Found): HTMLLIElement {
  const row = document.createElement('li');
  const link = el('a', '', meta.title ?? '');
  link.href = url;
  const name = el('span', 'name');
  name.append(link);
  const what = el('span', 'what', `${meta.lesson} · ${meta.chapter}`);
  for (const word of (meta.hazards ?? '').split(',').filter((each) => each))
    what.append(' ', el('span', `signal-tag ${word}`, word.toUpperCase()));
  what.append(document.createElement('br'), ...marked(excerpt));
  row.append(
    el('span', 'balloon', meta.number ?? ''),
    name,
    el('span', 'figures', meta.start ? clock(Number(meta.start)) : 'not on screen'),
    what,
  );
  return row;
}

/** The excerpt's text with its marks, and no other markup: it is made from the content, not trusted as HTML. */
function marked(excerpt: string): Node[] {
  const parsed = new DOMParser().parseFromString(excerpt, 'text/html');
  return [...parsed.body.childNodes].map((node) =>
    node.nodeName === 'MARK' ? el('mark', '', node.textContent ?? '') : document.createTextNode(node.textContent ?? ''),
  );
}

function el<K extends keyof HTMLElementTagNameMap>(name: K, className: string, text = ''): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  if (className) made.className = className;
  made.textContent = text;
  return made;
}

function clock(seconds: number): string {
  const two = (n: number) => String(n).padStart(2, '0');
  const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, Math.floor(seconds) % 60];
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}
