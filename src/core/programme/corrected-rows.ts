import { agrees, difference, findQuantities, isComparable } from '../heard/index.ts';
import type { Correction, Machine, Spec } from '../model/index.ts';
import { partsOf } from '../spec/index.ts';
import { whoseRow } from './rows-for.ts';

/** A row that a correction shows, and how its value stands to the words that are corrected. */
export interface CorrectedRow {
  readonly row: Spec;
  /** Whom it concerns, where the id has several rows. */
  readonly whose?: string;
  /** Such as `said 16 N·m too little, right until 2026-03-01`, or `as said`; absent where the words hold no value of its kind. */
  readonly verdict?: string;
}

/** The rows of a correction: first those whose value a bulletin changed, then others the words are wrong for. */
export function correctedRows(machine: Machine, { said, shown }: Correction, rows: readonly Spec[]): CorrectedRow[] {
  const heard = findQuantities(said ?? shown ?? '');
  const how = said === undefined ? 'shown' : 'said';
  const judged = rows.map((row): CorrectedRow & { readonly order: string } => {
    const whose = rows.length > 1 ? { whose: whoseRow(machine, row, rows) } : {};
    const pairs = (row.quantity ? partsOf(row.quantity) : []).flatMap((part) =>
      heard.filter((one) => isComparable(one, part)).map((one) => ({ one, part })),
    );
    if (pairs.length === 0) return { row, ...whose, order: '2' };
    // `98, or 80 newton metres`: the value that agrees does not hide the one that does not.
    const first = pairs.find(({ one }) => !pairs.some((other) => other.one === one && agrees(one, other.part)));
    if (!first) return { row, ...whose, verdict: `as ${how}`, order: '3' };
    const held = row.former.find(({ quantity }) =>
      (quantity ? partsOf(quantity) : []).some((old) => isComparable(first.one, old) && agrees(first.one, old)),
    );
    const off = difference(first.one, first.part);
    const until = held ? `, right until ${held.until}` : '';
    const verdict = off ? { verdict: `${how} ${offInWords(off.off, off.part.amount.unit)}${until}` } : {};
    return { row, ...whose, ...verdict, order: held ? '0' : '1' };
  });
  return judged
    .toSorted((a, b) => (a.order === b.order ? 0 : a.order < b.order ? -1 : 1))
    .map(({ order: _, ...row }) => row);
}

/** How far off a value is, such as `6 N·m too little`. @param off in `unit`, negative below */
export function offInWords(off: number, unit: string): string {
  return `${Math.abs(off)} ${unit} ${off < 0 ? 'too little' : 'too much'}`;
}
