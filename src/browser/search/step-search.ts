import type { Answer, Filter, Filters } from '../../core/search/index.ts';
import { chosenMachine } from '../my-machine/chosen.ts';
import { Scope } from '../page/scope.ts';
import { t } from '../page/words.ts';
import type { OpenedSearch } from './open-search.ts';
import { resultRow } from './result-row.ts';
import { pauseAfter } from './typing-pause.ts';

// Named again: the room of search itself comes only when somebody types.
const FILTERS: readonly Filter[] = ['machine', 'tool', 'hazard', 'spec'];
/** Rows shown at most; who gets more types another word. */
const MOST = 40;
/** So many are shown as soon as they are there, what a phone has room for; of a large shop the others are still to come then. */
const FIRST = 3;

/** Searches the steps as one types. Without scripts the page lists them all. */
export class StepSearch extends HTMLElement {
  #scope = new Scope();
  #engine: Promise<OpenedSearch> | undefined;
  /** Of the latest search; an earlier one that comes late is dropped. */
  #asked = 0;
  /** When the latest letter came, ms since the page was opened. */
  #typed = Number.NEGATIVE_INFINITY;

  connectedCallback(): void {
    this.#scope = new Scope();
    const form = this.querySelector('form');
    if (!form) return;
    this.#fillFromAddress(form);
    if (!new URL(location.href).searchParams.has('machine')) this.#presetMachine(form);
    this.#scope.listen(form, 'submit', (event) => event.preventDefault());
    this.#scope.listen(form, 'input', () => this.#search(form));
    // What search itself takes is there when the first letter comes.
    this.#scope.listen(form, 'focusin', () => this.#ready());
    this.#scope.listen(form, 'reset', () => this.#scope.after(0, () => this.#search(form)));
    const meant = this.querySelector<HTMLButtonElement>('.meant');
    const field = form.elements.namedItem('q');
    if (meant && field instanceof HTMLInputElement)
      this.#scope.listen(meant, 'click', () => {
        field.value = meant.value;
        field.focus();
        this.#search(form);
      });
    this.#scope.listen(document, 'change', (event) => {
      if (!(event.target instanceof Element) || !event.target.closest('my-machine')) return;
      this.#presetMachine(form);
      this.#search(form);
    });
    if ([...new FormData(form)].some(([, value]) => value !== '')) this.#search(form);
  }

  disconnectedCallback(): void {
    this.#scope.end();
  }

  #fillFromAddress(form: HTMLFormElement): void {
    const given = new URL(location.href).searchParams;
    for (const name of ['q', ...FILTERS]) {
      const field = form.elements.namedItem(name);
      const value = given.get(name);
      if (value && (field instanceof HTMLInputElement || field instanceof HTMLSelectElement)) field.value = value;
    }
  }

  /** Who has named their machine sees its steps first of all; "any" brings the others back. */
  #presetMachine(form: HTMLFormElement): void {
    const field = form.elements.namedItem('machine');
    const chosen = chosenMachine()?.machine;
    if (!(field instanceof HTMLSelectElement)) return;
    const own = [...field.options].find((option) => option.dataset.machine === chosen);
    // With one machine there is nothing to choose from.
    if (own && field.options.length > 2) field.value = own.value;
  }

  async #search(form: HTMLFormElement): Promise<void> {
    const data = new FormData(form);
    const words = String(data.get('q') ?? '').trim();
    const chosen = FILTERS.flatMap((name) => (data.get(name) ? [[name, String(data.get(name))] as const] : []));
    const filters: Filters = Object.fromEntries(chosen);
    const asked = ++this.#asked;
    if (!words && chosen.length === 0) this.#showAll();
    else await this.#find(words, filters, asked);
    // Last: a browser has work with a new address.
    if (asked === this.#asked) this.#keepInAddress(words, filters);
  }

  async #find(words: string, filters: Filters, asked: number): Promise<void> {
    try {
      this.#engine ??= this.#load();
      const [engine] = await Promise.all([this.#engine, this.#pause()]);
      if (asked !== this.#asked) return;
      const answer = await engine.search.find(words, filters);
      if (asked === this.#asked) await this.#show(answer, engine, asked);
    } catch {
      this.#engine = undefined;
      this.#tell(t('Search cannot be reached; all steps are listed below.'));
      this.#toggle(false);
    }
  }

  #ready(): void {
    if (this.dataset.rows === undefined || this.#engine) return;
    this.#engine = this.#load();
    this.#engine.catch(() => {
      this.#engine = undefined;
    });
  }

  #pause(): Promise<void> {
    const before = this.#typed;
    this.#typed = performance.now();
    return new Promise((done) => {
      this.#scope.after(pauseAfter(this.#typed - before), done);
    });
  }

  async #load(): Promise<OpenedSearch> {
    const { openSearch } = await import('./open-search.ts');
    return openSearch(this.dataset.index ?? '', this, this.dataset.rows);
  }

  #showAll(): void {
    this.#tell('');
    this.#suggest(undefined);
    this.#toggle(false);
  }

  async #show({ places, terms, meant, withoutValue }: Answer, { search, rowOf }: OpenedSearch, asked: number) {
    const shown = places.slice(0, MOST);
    const rowsOf = async (some: readonly number[]) => {
      const found = await Promise.all(some.map((place) => rowOf(place)));
      return found.flatMap((each) => (each ? [resultRow(each.row, search.excerpt(each.text, terms))] : []));
    };
    const first = await rowsOf(shown.slice(0, FIRST));
    if (asked !== this.#asked) return;
    const results = this.querySelector('.results');
    results?.replaceChildren(...first);
    this.#tell(
      [valueWords(withoutValue, places.length), countWords(places.length, shown.length, withoutValue)].join(' ').trim(),
    );
    this.#suggest(meant);
    this.#toggle(true);
    this.#tellOfRows();
    const others = await rowsOf(shown.slice(FIRST));
    if (asked !== this.#asked || others.length === 0) return;
    results?.append(...others);
    this.#tellOfRows();
  }

  /** Rows that were not on the page are narrowed to the chosen machine before they are seen. */
  #tellOfRows(): void {
    if (this.dataset.rows !== undefined) this.dispatchEvent(new Event('rows-come', { bubbles: true }));
  }

  /** Slips are mended and told; one press searches for what was meant. */
  #suggest(meant: string | undefined): void {
    const button = this.querySelector<HTMLButtonElement>('.meant');
    if (!button) return;
    button.hidden = meant === undefined;
    button.textContent = meant === undefined ? '' : t('Did you mean “{words}”?', { words: meant });
    button.value = meant ?? '';
  }

  #toggle(results: boolean): void {
    this.querySelector('.results')?.toggleAttribute('hidden', !results);
    this.querySelector('.all')?.toggleAttribute('hidden', results);
  }

  #tell(words: string): void {
    const status = this.querySelector('.found');
    if (status) status.textContent = words;
  }

  #keepInAddress(words: string, filters: Filters): void {
    const address = new URL(location.href);
    for (const name of ['q', ...FILTERS]) address.searchParams.delete(name);
    if (words) address.searchParams.set('q', words);
    for (const [name, value] of Object.entries(filters)) address.searchParams.set(name, value);
    history.replaceState(null, '', address);
  }
}

function valueWords(value: string | undefined, count: number): string {
  if (value === undefined) return '';
  return count > 0
    ? t('No spec has {value}. The other words are found in:', { value })
    : t('No spec has {value}.', { value });
}

function countWords(count: number, shown: number, withoutValue: string | undefined): string {
  if (count === 0) return withoutValue === undefined ? t('Nothing matches. Try fewer or different words.') : '';
  return count > shown
    ? t('{count} found; the first {shown} are shown', { count, shown })
    : t('{count} found', { count });
}

customElements.define('step-search', StepSearch);
