import type { Lesson, Machine, Spec } from '../model/index.ts';
import { applicabilityInWords, parseYears } from '../spec/index.ts';

export interface RowShown {
  readonly row: Spec;
  /** Which machines the row holds for, where the id has several rows. */
  readonly whose?: string;
}

/** The rows of a spec that hold for a lesson's model years, each with its machines when there are several. */
export function rowsFor(machine: Machine, lesson: Lesson, id: string): RowShown[] {
  const years = parseYears(lesson.years, machine.years);
  const meets = ({ from, to }: Spec['years']) => !years.ok || (from <= years.value.to && years.value.from <= to);
  const rows = machine.specs.filter((row) => row.id === id && meets(row.years));
  return rows.length > 1
    ? rows.map((row) => ({ row, whose: applicabilityInWords(row, machine.years) }))
    : rows.map((row) => ({ row }));
}
