import { ENGLISH, type Locale, wording } from '../locale/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';

/** A span of model years, both included. */
export interface Years {
  readonly from: number;
  readonly to: number;
}

/** Model years that can be written at all; open ends reach here. */
export const ALL_YEARS: Years = { from: 1885, to: 2100 };

/**
 * A span of model years as written: `2021`, `2019-2025`, `2022-`, `-2021`; nothing means all of the machine's.
 *
 * @param within the machine's years: open ends end there
 */
export function parseYears(written: string | number | undefined, within: Years = ALL_YEARS): Parsed<Years> {
  if (written === undefined) return ok(within);
  const match = /^\s*(?:(\d{4})|(\d{4})?\s*[-–]\s*(\d{4})?)\s*$/.exec(String(written));
  if (!match) return fail(`"${written}" are no years`, 'years read 2021, 2019-2025, 2022- or -2021');
  const [, one, first, last] = match;
  const from = Number(one ?? first ?? within.from);
  const to = Number(one ?? last ?? within.to);
  if (from > to) return fail(`the years ${written} end before they start`, `write ${to}-${from}`);
  return ok({ from, to });
}

/** Years as people write them: `2021`, `2019-2025`. */
export function printYears({ from, to }: Years, locale: Locale = ENGLISH): string {
  const { t } = wording(locale);
  if (from <= ALL_YEARS.from && to >= ALL_YEARS.to) return t('all years');
  if (from <= ALL_YEARS.from) return t('to {year}', { year: to });
  if (to >= ALL_YEARS.to) return t('from {year}', { year: from });
  return from === to ? String(from) : `${from}–${to}`;
}

/** Which machine an attendee has; what is left out is not known. */
export interface MachineAt {
  readonly year?: number;
  readonly variant?: string;
  readonly region?: string;
}

/** What says where a row of a spec table holds. */
export interface Applicable {
  readonly id: string;
  readonly years: Years;
  readonly written: {
    readonly variants?: readonly string[] | undefined;
    readonly regions?: readonly string[] | undefined;
  };
}

/** True when a row holds for a machine, or may hold as far as the machine is known. */
export function applies(row: Applicable, { year, variant, region }: MachineAt): boolean {
  const { variants, regions } = row.written;
  return (
    (year === undefined || (row.years.from <= year && year <= row.years.to)) &&
    (variant === undefined || variants === undefined || variants.includes(variant)) &&
    (region === undefined || regions === undefined || regions.includes(region))
  );
}

/**
 * The rows of one id that hold for a machine, in the order of the table.
 *
 * @param at what is known of the machine; with nothing known all rows of the id come back
 * @returns none when the table says nothing about this machine
 */
export function specsFor<Row extends Applicable>(rows: readonly Row[], id: string, at: MachineAt = {}): readonly Row[] {
  return rows.filter((row) => row.id === id && applies(row, at));
}

/** A machine with its model years and variants, as far as words need them. */
export interface VariedMachine {
  readonly years: Years;
  readonly written: {
    readonly machine: { readonly variants?: readonly { readonly id: string; readonly title: string }[] | undefined };
  };
}

/** Which machines a row is for, in words, variants by their titles; empty when it holds for all of them. */
export function applicabilityInWords(row: Applicable, machine: VariedMachine, locale: Locale = ENGLISH): string {
  const { from, to } = machine.years;
  const years = row.years.from === from && row.years.to === to ? [] : [printYears(row.years, locale)];
  const { variants = [], regions = [] } = row.written;
  const and = wording(locale).t(' and ');
  const titles = variants.map((id) => machine.written.machine.variants?.find((each) => each.id === id)?.title ?? id);
  return [...years, titles.join(and), regions.join(and)].filter((part) => part !== '').join(', ');
}
