import { Scope } from '../page/scope.ts';

/** A machine that the shop knows, as the page carries it. */
interface Known {
  readonly id: string;
  readonly title: string;
  readonly from: number;
  readonly to: number;
  readonly variants: readonly { readonly id: string; readonly title: string }[];
  readonly regions: readonly string[];
}

/** What an attendee has said of their machine. */
export interface Chosen {
  readonly machine: string;
  readonly year?: number;
  readonly variant?: string;
  readonly region?: string;
}

const KEY = 'liftside.my-machine';

/** The machine kept in this browser; nothing where none was named or nothing can be kept. */
export function chosenMachine(): Chosen | undefined {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null');
    return typeof kept === 'object' && kept !== null && 'machine' in kept ? (kept as Chosen) : undefined;
  } catch {
    return undefined;
  }
}

/** True where a row marked on the page holds for a machine, as far as it is known. */
export function holdsFor(row: DOMStringMap, chosen: Chosen): boolean {
  if (row.machine !== chosen.machine) return true;
  const { year, variant, region } = chosen;
  const names = (list: string | undefined, one: string | undefined) =>
    list === undefined || one === undefined || list.split(' ').includes(one);
  const inYears = year === undefined || (Number(row.from) <= year && year <= Number(row.to));
  return inYears && names(row.variants, variant) && names(row.regions, region);
}

/** Shows only the rows of the chosen machine; all of them when none is chosen. Labels stay either way. */
export function showOwnRows(chosen: Chosen | undefined): void {
  for (const row of document.querySelectorAll<HTMLElement>('[data-from][data-to]'))
    row.hidden = chosen !== undefined && !holdsFor(row.dataset, chosen);
  for (const between of document.querySelectorAll<HTMLElement>('.between-rows')) {
    const [before, after] = [between.previousElementSibling, between.nextElementSibling];
    between.hidden = [before, after].some((each) => each instanceof HTMLElement && each.hidden);
  }
}

/** The form in which an attendee names their machine. */
export class MyMachine extends HTMLElement {
  #scope = new Scope();
  #known: readonly Known[] = [];

  connectedCallback(): void {
    this.#scope = new Scope();
    this.#known = JSON.parse(this.querySelector('script')?.textContent ?? '[]');
    this.#draw(chosenMachine());
    this.#scope.listen(this, 'change', () => this.#changed());
  }

  disconnectedCallback(): void {
    this.#scope.end();
  }

  #select(name: string): HTMLSelectElement | undefined {
    return this.querySelector<HTMLSelectElement>(`select[name="${name}"]`) ?? undefined;
  }

  #changed(): void {
    const value = (name: string) => this.#select(name)?.value ?? '';
    const machine = value('machine');
    const old = chosenMachine();
    const year = Number(value('year'));
    const same = old?.machine === machine;
    const chosen: Chosen | undefined = machine
      ? {
          machine,
          ...(year > 0 && same ? { year } : {}),
          ...(same && value('variant') ? { variant: value('variant') } : {}),
          ...(same && value('region') ? { region: value('region') } : {}),
        }
      : undefined;
    try {
      if (chosen) localStorage.setItem(KEY, JSON.stringify(chosen));
      else localStorage.removeItem(KEY);
    } catch {
      // Nothing can be kept here: the choice holds for this page.
    }
    this.#draw(chosen);
  }

  #draw(chosen: Chosen | undefined): void {
    const known = this.#known.find(({ id }) => id === chosen?.machine);
    const years = known ? Array.from({ length: known.to - known.from + 1 }, (_, i) => String(known.from + i)) : [];
    this.#fill(
      'machine',
      'any',
      this.#known.map(({ id, title }) => [id, title]),
      known?.id,
    );
    this.#fill(
      'year',
      'any',
      years.map((year) => [year, year]),
      chosen?.year?.toString(),
    );
    this.#fill(
      'variant',
      'any',
      (known?.variants ?? []).map(({ id, title }) => [id, title]),
      chosen?.variant,
    );
    this.#fill(
      'region',
      'any',
      (known?.regions ?? []).map((region) => [region, region]),
      chosen?.region,
    );
    const said = this.querySelector('output');
    if (said)
      said.textContent = !known
        ? 'Every row is shown, with the machines it is for.'
        : chosen?.year === undefined
          ? 'Name the year too, to see only your values.'
          : `Only values for a ${known.title} of ${chosen.year} are shown.`;
    showOwnRows(known ? chosen : undefined);
  }

  #fill(name: string, none: string, options: readonly (readonly string[])[], value: string | undefined): void {
    const select = this.#select(name);
    if (!select) return;
    select.replaceChildren(new Option(none, ''), ...options.map(([id, text]) => new Option(text, id)));
    select.value = value ?? '';
    const label = select.closest('label');
    if (label && name !== 'machine') label.hidden = options.length === 0;
  }
}

customElements.define('my-machine', MyMachine);
