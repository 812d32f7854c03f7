import type { Machine, Shop, Spec } from '../model/index.ts';
import { type RowShown, rowShown, sourceInWords } from '../programme/index.ts';
import { MissingValue } from './missing-value.ts';
import { specAnchor } from './spec-anchor.ts';

/** Which machines something on a page holds for: an attendee who has named theirs sees only its own. */
export interface Holds {
  readonly machine: string;
  readonly from: number;
  readonly to: number;
  readonly variants?: readonly string[];
  readonly regions?: readonly string[];
}

/** A value of the spec table as a page shows it. */
export interface ValueShown {
  /** Said before the value where several rows share an id. */
  readonly whose?: string;
  readonly value: { readonly primary: string; readonly secondary?: string; readonly source: string };
  /** A wrong value here can hurt someone. */
  readonly critical?: true;
  /** How a value that is corrected stands to it, such as `said 2 N·m too little`. */
  readonly verdict?: string;
  readonly holds: Holds;
  /** Its row in the spec table: path on the site. */
  readonly path: string;
}

export function holdsFor(machine: string, { years, written: { variants, regions } }: Spec): Holds {
  return { machine, from: years.from, to: years.to, ...(variants && { variants }), ...(regions && { regions }) };
}

/**
 * One row with both units, its tolerance and where it comes from.
 *
 * @throws MissingValue when its numbers make no sense or its source is missing
 */
export function valueShown(
  shop: Shop,
  machine: Machine,
  { row, whose, verdict }: RowShown & { readonly verdict?: string },
): ValueShown {
  const source = sourceInWords(shop, machine.id, row);
  const shown = rowShown(row, shop.info.units, shop.locale);
  if (!shown || !source) throw new MissingValue(row.id);
  return {
    ...(whose ? { whose } : {}),
    value: { ...shown, source },
    ...(row.written.critical ? { critical: true as const } : {}),
    ...(verdict ? { verdict } : {}),
    holds: holdsFor(machine.id, row),
    path: `specs/${machine.id}/#${specAnchor(machine, row)}`,
  };
}

export function valuesShown(
  shop: Shop,
  machine: Machine,
  rows: readonly (RowShown & { readonly verdict?: string })[],
): ValueShown[] {
  return rows.map((row) => valueShown(shop, machine, row));
}
