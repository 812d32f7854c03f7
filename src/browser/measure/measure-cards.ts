import '../page/within-policy.ts';
import { english } from '../../core/locale/index.ts';
import { type Amount, intervalDue, judgeReading, readDateCode } from '../../core/spec/index.ts';
import { chosenMachine, type Held, holdsFor } from '../my-machine/chosen.ts';
import { Scope } from '../page/scope.ts';
import { today } from '../page/today.ts';
import { locale, t } from '../page/words.ts';
import { keepInterval } from '../record/jobs.ts';
import { RecordStore } from '../record/store.ts';
import { drawScale } from './draw-scale.ts';

interface Row extends Held {
  /** Machine and row of the spec table. */
  readonly key: string;
  readonly name: string;
  /** Its value, in words. */
  readonly shown: string;
}
interface Limit extends Row {
  readonly amount: Amount;
}
interface Interval extends Row {
  readonly distance?: Amount;
  readonly time?: Amount;
}

/** A card's answer: the verdict in large letters, what it is based on, and how it is meant. */
type Said = readonly [verdict: string, reason?: string, meaning?: string];

const WORDS = {
  in: english('In limits.'),
  near: english('In limits, but only just.'),
  out: english('Out of limits.'),
} as const;

/** Three small cards: a reading against its limits, an interval against odometer and day, a tyre's date code. */
export class MeasureCards extends HTMLElement {
  #scope = new Scope();
  #limits: readonly Limit[] = [];
  #intervals: readonly Interval[] = [];
  readonly #store = new RecordStore();

  connectedCallback(): void {
    this.#scope = new Scope();
    const rows = JSON.parse(this.querySelector('script')?.textContent ?? '{}');
    this.#limits = rows.limits ?? [];
    this.#intervals = rows.intervals ?? [];
    this.#offer();
    this.#scope.listen(this, 'input', ({ target }) => {
      const form = target instanceof Element && target.closest('form')?.dataset.card === 'interval';
      if (form && target instanceof HTMLSelectElement) this.#recall();
      else if (form) this.#keep();
      this.#answer();
    });
    this.#scope.listen(this, 'submit', (event) => event.preventDefault());
    // The machine may be named below while this page is open.
    this.#scope.listen(document, 'change', (event) => {
      if (event.target instanceof Element && event.target.closest('my-machine')) this.#offer();
    });
  }

  disconnectedCallback(): void {
    this.#scope.end();
  }

  #form(name: string): HTMLFormElement | undefined {
    return this.querySelector<HTMLFormElement>(`form[data-card="${name}"]`) ?? undefined;
  }

  #offer(): void {
    const named = chosenMachine();
    // What was named in this browser may be a machine that the shop has no limit for at all.
    const chosen = [...this.#limits, ...this.#intervals].some(({ machine }) => machine === named?.machine)
      ? named
      : undefined;
    for (const [name, rows] of [
      ['reading', this.#limits],
      ['interval', this.#intervals],
    ] as const) {
      const select = this.#form(name)?.querySelector('select');
      const own = rows
        .map((row, index) => ({ row, index }))
        .filter(({ row }) => !chosen || (row.machine === chosen.machine && holdsFor(row, chosen)));
      select?.replaceChildren(...own.map(({ row, index }) => new Option(row.name, String(index))));
    }
    this.#recall();
    this.#answer();
  }

  /** What is known of the last time the chosen interval was done. */
  #recall(): void {
    const row = this.#chosen('interval', this.#intervals);
    const kept = this.#store.read().intervals.find((each) => each.row === row?.key);
    this.#put('interval', 'then', kept?.odometer === undefined ? '' : String(kept.odometer));
    this.#put('interval', 'since', kept?.day ?? '');
  }

  #keep(): void {
    const row = this.#chosen('interval', this.#intervals);
    if (!row) return;
    const [then, since] = [this.#value('interval', 'then'), this.#value('interval', 'since')];
    const kept = {
      row: row.key,
      title: row.name,
      ...(then === '' || Number(then) < 0 ? {} : { odometer: Number(then) }),
      ...(since === '' ? {} : { day: since }),
      changed: new Date().toISOString(),
    };
    this.#store.change((record) => keepInterval(record, kept));
  }

  #answer(): void {
    this.#say('reading', ...this.#reading());
    this.#say('interval', ...this.#interval());
    this.#say('date-code', ...this.#dateCode());
  }

  #say(name: string, verdict: string, reason = '', meaning = ''): void {
    const output = this.#form(name)?.parentElement?.querySelector('output');
    if (!output) return;
    const large = document.createElement('strong');
    large.textContent = verdict;
    output.replaceChildren(...(verdict === '' ? [] : [large, reason === '' ? '' : ` ${reason}`]));
    output.dataset.verdict = meaning;
  }

  #put(form: string, name: string, value: string): void {
    const field = this.#form(form)?.elements.namedItem(name);
    if (field instanceof HTMLInputElement) field.value = value;
  }

  #value(form: string, name: string): string {
    const field = this.#form(form)?.elements.namedItem(name);
    return field instanceof HTMLInputElement || field instanceof HTMLSelectElement ? field.value : '';
  }

  /** The row chosen in a card; none where the table has none for the machine. */
  #chosen<R extends Row>(form: string, rows: readonly R[]): R | undefined {
    const index = this.#value(form, 'what');
    return index === '' ? undefined : rows[Number(index)];
  }

  #reading(): Said {
    const row = this.#chosen('reading', this.#limits);
    const unit = this.querySelector('[data-unit]');
    if (unit) unit.textContent = row?.amount.unit ?? '';
    const written = this.#value('reading', 'reading');
    const value = written === '' ? undefined : Number(written);
    const scale = this.querySelector<HTMLElement>('[data-scale]');
    if (scale) drawScale(scale, row?.amount, value);
    if (!row) return [t('The table gives no limit for your machine.')];
    if (value === undefined) return [''];
    const verdict = judgeReading(value, row.amount);
    return verdict
      ? [t(WORDS[verdict]), t('The table says {value}.', { value: row.shown }), verdict]
      : [t('The table gives no limit.')];
  }

  #interval(): Said {
    const row = this.#chosen('interval', this.#intervals);
    if (!row) return [t('The table gives no interval for your machine.')];
    const [then, since, now] = ['then', 'since', 'now'].map((name) => this.#value('interval', name));
    if ((row.distance && (!then || !now)) || (row.time && !since)) return [''];
    const day = today();
    const left = intervalDue(row, { odometer: Number(then), day: since || day }, { odometer: Number(now), day });
    const { distanceLeft, daysLeft, dueOn } = left;
    const unit = row.distance?.unit ?? '';
    const over = [
      distanceLeft !== undefined && distanceLeft <= 0
        ? t('by {distance} {unit}', { distance: -distanceLeft, unit })
        : '',
      daysLeft !== undefined && daysLeft <= 0 ? t('since {day}', { day: dueOn ?? '' }) : '',
    ].filter((part) => part !== '');
    const open = [
      distanceLeft !== undefined && distanceLeft > 0
        ? t('{distance} {unit} left', { distance: distanceLeft, unit })
        : '',
      daysLeft !== undefined && daysLeft > 0 ? t('due on {day}', { day: dueOn ?? '' }) : '',
    ].filter((part) => part !== '');
    return left.due
      ? [t('Overdue {how}', { how: over.join(t(' and ')) }), open.length > 0 ? `(${open.join(', ')}).` : '', 'out']
      : [t('Not due yet:'), `${open.join(', ')}.`, 'in'];
  }

  #dateCode(): Said {
    const code = this.#value('date-code', 'code');
    if (code.length < 3) return [''];
    const read = readDateCode(code, locale);
    if (!read.ok) return [t('{problem}; {help}.', { problem: read.problem, help: read.help }), '', 'out'];
    const { week, year, from, to } = read.value;
    return from > today()
      ? [t('Week {week} of {year} has not come yet;', { week, year }), t('read the code again.'), 'out']
      : [t('Made in week {week} of {year},', { week, year }), t('{from} to {to}.', { from, to })];
  }
}

customElements.define('measure-cards', MeasureCards);
