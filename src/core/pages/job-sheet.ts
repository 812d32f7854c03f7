import type { Lesson, Machine, Shop } from '../model/index.ts';
import { rowsFor } from '../programme/index.ts';
import { type Amount, showQuantity } from '../spec/index.ts';
import { type Holds, holdsFor } from './value-shown.ts';

/** A row that a reading is held against. */
export interface LimitRow extends Holds {
  readonly amount: Amount;
  /** Its value in words. */
  readonly shown: string;
}

/** What is measured at a step, with its limits; several rows where years or variants differ. */
export interface Measured {
  readonly step: string;
  readonly spec: string;
  readonly title: string;
  readonly unit: string;
  readonly rows: readonly LimitRow[];
}

/** What a page needs to know of a lesson to keep a record of the work. */
export interface JobSheet {
  readonly shop: string;
  readonly lesson: string;
  readonly title: string;
  readonly machine: string;
  readonly steps: readonly { readonly id: string; readonly number: string; readonly title: string }[];
  readonly measured: readonly Measured[];
}

/** Of each step what it measures: cited as measured, with limits to be held against. */
export function jobSheet(shop: Shop, lesson: Lesson, machine: Machine | undefined): JobSheet {
  return {
    shop: shop.info.name,
    lesson: lesson.id,
    title: lesson.title,
    machine: machine?.title ?? lesson.machine,
    steps: lesson.chapters.flatMap(({ steps }, c) =>
      steps.map(({ id, title }, s) => ({ id, number: `${c + 1}.${s + 1}`, title })),
    ),
    measured: machine
      ? lesson.chapters.flatMap(({ steps }) =>
          steps.flatMap(({ id, cites }) =>
            [...new Set(cites.filter(({ measured }) => measured).map(({ spec }) => spec))].flatMap((spec) =>
              measuredBy(shop, machine, lesson, id, spec),
            ),
          ),
        )
      : [],
  };
}

function measuredBy(shop: Shop, machine: Machine, lesson: Lesson, step: string, spec: string): Measured[] {
  const rows = rowsFor(machine, lesson, spec).flatMap(({ row }): (LimitRow & { title: string })[] => {
    const { quantity } = row;
    if (!quantity || !('amount' in quantity)) return [];
    const { amount } = quantity;
    if (amount.min === undefined && amount.max === undefined) return [];
    const shown = showQuantity(quantity, shop.info.units, shop.locale).primary;
    return [{ title: row.title, ...holdsFor(machine.id, row), amount, shown }];
  });
  const [first] = rows;
  // One field has one unit; rows written in several are the table's to mend.
  if (!first || rows.some(({ amount }) => amount.unit !== first.amount.unit)) return [];
  return [
    {
      step,
      spec,
      title: first.title,
      unit: first.amount.unit,
      rows: rows.map(({ title: _, ...row }) => row),
    },
  ];
}
