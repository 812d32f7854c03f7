import { chosenMachine } from '../my-machine/my-machine.ts';
import { Scope } from '../page/scope.ts';
import { type FoundStep, resultRow } from './result-row.ts';

/** The part of Pagefind's browser interface that is used; it is loaded from the built index, not bundled. */
interface Pagefind {
  init(): Promise<void>;
  preload(words: string, options: { filters: Filters }): Promise<void>;
  debouncedSearch(
    words: string | null,
    options: { filters: Filters },
    ms: number,
  ): Promise<{ results: Result[] } | null>;
}
interface Result {
  data(): Promise<FoundStep>;
}
type Filters = Record<string, string>;

const FILTERS = ['machine', 'tool', 'hazard', 'spec'];
/** Rows shown at most; who gets more types another word. */
const MOST = 40;

/** Searches the steps as one types. Without scripts the page lists them all. */
export class StepSearch extends HTMLElement {
  #scope = new Scope();
  #engine: Promise<Pagefind> | undefined;

  connectedCallback(): void {
    this.#scope = new Scope();
    const form = this.querySelector('form');
    if (!form) return;
    this.#fillFromAddress(form);
    if (!new URL(location.href).searchParams.has('machine')) this.#presetMachine(form);
    this.#scope.listen(form, 'submit', (event) => event.preventDefault());
    this.#scope.listen(form, 'input', () => this.#search(form));
    this.#scope.listen(form, 'reset', () => this.#scope.after(0, () => this.#search(form)));
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
    const filters: Filters = {};
    for (const name of FILTERS) if (data.get(name)) filters[name] = String(data.get(name));
    this.#keepInAddress(words, filters);
    if (!words && Object.keys(filters).length === 0) return this.#showAll();
    try {
      this.#engine ??= this.#load();
      const engine = await this.#engine;
      const found = await engine.debouncedSearch(words || null, { filters }, 120);
      // Overtaken by a later search.
      if (!found) return;
      this.#show(await Promise.all(found.results.slice(0, MOST).map((result) => result.data())), found.results.length);
    } catch {
      this.#engine = undefined;
      this.#tell('Search cannot be reached; all steps are listed below.');
      this.#toggle(false);
    }
  }

  async #load(): Promise<Pagefind> {
    const engine: Pagefind = await import(/* @vite-ignore */ new URL(this.dataset.index ?? '', location.href).href);
    await engine.init();
    return engine;
  }

  #showAll(): void {
    this.#tell('');
    this.#toggle(false);
  }

  #show(found: readonly FoundStep[], count: number): void {
    const links = this.querySelectorAll<HTMLAnchorElement>('.all li .name a');
    const rows = new Map(
      [...links].flatMap((link) => {
        const row = link.closest('li');
        return row ? [[link.href, row] as const] : [];
      }),
    );
    this.querySelector('.results')?.replaceChildren(...found.flatMap((each) => resultRow(each, rows)));
    const more = count > found.length ? `; the first ${found.length} are shown` : '';
    this.#tell(
      count === 0 ? 'No step matches. Fewer or other words may.' : `${count} step${count === 1 ? '' : 's'}${more}`,
    );
    this.#toggle(true);
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

customElements.define('step-search', StepSearch);
