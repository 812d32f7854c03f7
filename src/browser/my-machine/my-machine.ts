import { Scope } from '../page/scope.ts';
import { plural, t } from '../page/words.ts';
import { type Chosen, chosenMachine, holdsFor, MY_MACHINE_KEY } from './chosen.ts';

/** A machine that the shop knows, as the page carries it. */
interface Known {
  readonly id: string;
  readonly title: string;
  readonly from: number;
  readonly to: number;
  readonly variants: readonly { readonly id: string; readonly title: string }[];
  readonly regions: readonly string[];
}

/**
 * Shows only the rows of the chosen machine; all of them when none is chosen. Labels stay either way.
 *
 * @returns how many rows the page prints, and how many of them are left out; a player's cards and former values say again
 *   what stands elsewhere
 */
export function showOwnRows(chosen: Chosen | undefined): { rows: number; hidden: number } {
  const rows = [...document.querySelectorAll<HTMLElement>('[data-from][data-to]')];
  for (const row of rows) row.hidden = chosen !== undefined && !(isOwn(row, chosen) && holdsFor(row.dataset, chosen));
  for (const group of document.querySelectorAll<HTMLElement>('.spec-rows')) showGroup(group);
  const printed = rows.filter((row) => !row.closest('lesson-player, .former'));
  return { rows: printed.length, hidden: printed.filter(({ hidden }) => hidden).length };
}

/** Puts what holds for one's own machine before what an element says of all, or lets it say that again. */
function showOwn(attribute: 'yearsOf' | 'valuesOf', own: (machine: string | undefined) => string | undefined): void {
  const selector = { yearsOf: '[data-years-of]', valuesOf: '[data-values-of]' }[attribute];
  for (const element of document.querySelectorAll<HTMLElement>(selector)) {
    element.dataset.all ??= element.textContent;
    const text = own(element.dataset[attribute]);
    element.textContent =
      text === undefined ? element.dataset.all : t('{own} (of {all})', { own: text, all: element.dataset.all ?? '' });
  }
}

/** In a list of all the shop's machines only the chosen one counts; a lesson or table of another machine stays whole. */
function isOwn(row: HTMLElement, chosen: Chosen): boolean {
  return row.closest('[data-every-machine]') === null || row.dataset.machine === chosen.machine;
}

/** Rows of one spec in a line: marks stand only between two of them, and where none is left, that is said. */
function showGroup(group: HTMLElement): void {
  let shown = 0;
  let between: HTMLElement | undefined;
  for (const part of group.children) {
    if (!(part instanceof HTMLElement)) continue;
    if (part.matches('.between-rows')) between = part;
    else if (part.matches('.no-own-row')) part.hidden = shown > 0;
    else {
      if (between) between.hidden = part.hidden || shown === 0;
      if (!part.hidden) shown++;
    }
  }
}

/** The form in which an attendee names their machine. */
export class MyMachine extends HTMLElement {
  #scope = new Scope();
  #known: readonly Known[] = [];
  #chosen: Chosen | undefined;

  connectedCallback(): void {
    this.#scope = new Scope();
    this.#known = JSON.parse(this.querySelector('script')?.textContent ?? '[]');
    this.#draw(chosenMachine());
    this.#scope.listen(this, 'change', () => this.#changed());
    this.#scope.listen(document, 'rows-come', () => this.#narrow());
    this.#scope.listen(document, 'click', ({ target }) => {
      if (target instanceof Element && target.closest('[data-name-machine]')) this.querySelector('dialog')?.showModal();
    });
  }

  disconnectedCallback(): void {
    this.#scope.end();
  }

  #select(name: string): HTMLSelectElement | undefined {
    return this.querySelector<HTMLSelectElement>(`select[name="${name}"]`) ?? undefined;
  }

  /** The only machine of a shop that has one: it needs no choosing. */
  get #only(): Known | undefined {
    return this.#known.length === 1 ? this.#known[0] : undefined;
  }

  #changed(): void {
    const value = (name: string) => this.#select(name)?.value ?? '';
    const machine = this.#only?.id ?? value('machine');
    const same = this.#only !== undefined || chosenMachine()?.machine === machine;
    const year = same ? Number(value('year')) : 0;
    const [variant, region] = same ? [value('variant'), value('region')] : ['', ''];
    const details = { ...(year > 0 ? { year } : {}), ...(variant ? { variant } : {}), ...(region ? { region } : {}) };
    const named = this.#only ? Object.keys(details).length > 0 : machine !== '';
    const chosen: Chosen | undefined = named ? { machine, ...details } : undefined;
    try {
      if (chosen) localStorage.setItem(MY_MACHINE_KEY, JSON.stringify(chosen));
      else localStorage.removeItem(MY_MACHINE_KEY);
    } catch {
      // Nothing can be kept here: the choice holds for this page.
    }
    this.#draw(chosen);
  }

  #draw(named: Chosen | undefined): void {
    this.#chosen = named;
    const { known, chosen } = this.#own;
    const years = known ? Array.from({ length: known.to - known.from + 1 }, (_, i) => String(known.from + i)) : [];
    const same = (text: string): [string, string] => [text, text];
    const toOption = ({ id, title }: { id: string; title: string }): [string, string] => [id, title];
    this.#fill('machine', this.#known.map(toOption), known?.id);
    this.#fill('year', years.map(same), chosen?.year?.toString());
    this.#fill('variant', (known?.variants ?? []).map(toOption), chosen?.variant);
    this.#fill('region', (known?.regions ?? []).map(same), chosen?.region);
    const said = this.querySelector('output');
    if (said)
      said.textContent =
        !known || (this.#only && !chosen)
          ? t('Showing values for all years.')
          : chosen?.year === undefined
            ? t('Name the year too, to see only your values.')
            : t('Showing only values for a {machine} of {year}.', { machine: known.title, year: chosen.year });
    this.#narrow();
  }

  /** What the shop knows of the machine that was named in this browser, which it may no longer teach. */
  get #own(): { known: Known | undefined; chosen: Chosen | undefined } {
    const known = this.#only ?? this.#known.find(({ id }) => id === this.#chosen?.machine);
    return { known, chosen: this.#chosen?.machine === known?.id ? this.#chosen : undefined };
  }

  /** Shows the rows of one's own machine, also those that have just come. */
  #narrow(): void {
    const { known, chosen } = this.#own;
    this.#tellAbove(known, chosen, showOwnRows(chosen));
    this.#askWhereValuesDiffer(known, chosen);
  }

  /** What is shown, at the top of the page and on paper; plates and counts of the page follow it. */
  #tellAbove(
    known: Known | undefined,
    chosen: Chosen | undefined,
    { rows, hidden }: { rows: number; hidden: number },
  ): void {
    const title = known?.title ?? t('All machines');
    const details = [chosen?.year, known?.variants.find(({ id }) => id === chosen?.variant)?.title, chosen?.region];
    const own = details.filter((detail) => detail !== undefined).join(', ');
    const named = own ? `${title}, ${own}` : title;
    const words = this.querySelector('[data-own-machine]');
    if (words)
      words.textContent = chosen
        ? t('Your machine: {machine}', { machine: named })
        : t('{machine}, all years', { machine: title });
    const button = this.querySelector('[data-name-machine]');
    if (button) button.textContent = chosen ? t('Change') : t('Name yours');
    const printed = this.querySelector<HTMLElement>('[data-printed]');
    if (printed) {
      printed.hidden = rows === 0;
      printed.textContent =
        hidden === 0
          ? t('Printed with the values for all years, each with the years it is for.')
          : plural(
              hidden,
              'Printed for a {machine} only: one value for others left out. Other years and variants differ; do not use this sheet for them.',
              'Printed for a {machine} only: {n} values for others left out. Other years and variants differ; do not use this sheet for them.',
              { machine: named },
            );
    }
    for (const words of document.querySelectorAll<HTMLElement>('[data-all-years]')) words.hidden = hidden > 0;
    showOwn('yearsOf', (machine) => (machine === chosen?.machine ? chosen?.year?.toString() : undefined));
    showOwn('valuesOf', (machine) => (hidden > 0 && machine === chosen?.machine ? String(rows - hidden) : undefined));
  }

  /** Asked once a page, at the first value that is another one for other machines. */
  #askWhereValuesDiffer(known: Known | undefined, chosen: Chosen | undefined): void {
    document.querySelector('.ask-machine')?.remove();
    if (!known || chosen?.year !== undefined) return;
    const differing = [...document.querySelectorAll<HTMLElement>('main .spec-rows')].find(
      (group) =>
        !group.closest('lesson-player') && group.querySelectorAll(`:scope > [data-machine="${known.id}"]`).length > 1,
    );
    const ask = document.createElement('button');
    ask.type = 'button';
    ask.className = 'key ask-machine no-print';
    ask.dataset.nameMachine = '';
    ask.textContent = t('Which year is your {machine}?', { machine: known.title });
    differing?.after(ask);
  }

  #fill(name: string, options: readonly (readonly [string, string])[], value: string | undefined): void {
    const select = this.#select(name);
    if (!select) return;
    select.replaceChildren(new Option(t('any'), ''), ...options.map(([id, text]) => new Option(text, id)));
    select.value = value ?? '';
    const label = select.closest('label');
    if (label) label.hidden = options.length === 0 || (name === 'machine' && this.#only !== undefined);
  }
}

customElements.define('my-machine', MyMachine);
