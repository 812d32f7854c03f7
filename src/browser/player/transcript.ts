import type { Scope } from '../page/scope.ts';
import { plural } from '../page/words.ts';

/** What is said, beside the picture: the line being said is marked and kept in view; a search leaves the lines that have its words. */
export class Transcript {
  readonly #box: HTMLElement;
  readonly #lines: readonly { readonly start: number; readonly item: HTMLElement; readonly text: string }[];
  #current: HTMLElement | undefined;
  #searching = false;

  constructor(box: HTMLElement, scope: Scope, goTo: (seconds: number) => void) {
    this.#box = box;
    this.#lines = [...box.querySelectorAll<HTMLElement>('li')].map((item) => ({
      start: Number(item.querySelector<HTMLElement>('[data-at]')?.dataset.at),
      item,
      text: (item.textContent ?? '').toLowerCase(),
    }));
    scope.listen(box, 'click', (event) => {
      const line = event.target instanceof Element && event.target.closest<HTMLElement>('[data-at]');
      if (!line) return;
      event.preventDefault();
      goTo(Number(line.dataset.at));
    });
    const field = box.querySelector<HTMLInputElement>('input[type=search]');
    const count = box.querySelector<HTMLElement>('[role=status]');
    if (field) scope.listen(field, 'input', () => this.#search(field.value, count));
  }

  /**
   * @param seconds programme time
   * @param frame length of a frame, seconds: a line that begins anywhere in the frame on screen has begun
   */
  show(seconds: number, frame: number): void {
    const line = this.#lines.findLast(({ start }) => start <= seconds + frame)?.item;
    if (line === this.#current) return;
    this.#current?.removeAttribute('aria-current');
    line?.setAttribute('aria-current', 'true');
    this.#current = line;
    if (this.#searching || !line || line.offsetParent === null) return;
    // Only the list scrolls; the page is not moved by what is said.
    const list = line.parentElement as HTMLElement;
    list.scrollTop = line.offsetTop - list.offsetTop - list.clientHeight / 3;
  }

  #search(query: string, count: HTMLElement | null): void {
    const words = query.toLowerCase().split(/\s+/).filter(Boolean);
    this.#searching = words.length > 0;
    let found = 0;
    for (const { item, text } of this.#lines) {
      item.hidden = !words.every((word) => text.includes(word));
      if (!item.hidden) found++;
    }
    if (count) count.textContent = words.length === 0 ? '' : plural(found, '{n} line', '{n} lines');
    this.#box.classList.toggle('searching', this.#searching);
  }
}
