import { ENGLISH, english, type Locale, wording } from '../locale/index.ts';
import type { Lesson, Machine, Passage, Spec } from '../model/index.ts';
import { applicabilityInWords, parseYears } from '../spec/index.ts';

export interface RowShown {
  readonly row: Spec;
  /** Which machines the row holds for, where the id has several rows. */
  readonly whose?: string;
}

/** A spec that a step cites, with its rows for the lesson's model years. */
export interface CitedSpec {
  readonly title: string;
  readonly rows: readonly [RowShown, ...RowShown[]];
}

/** The rows of a machine by id, in the order of the table. */
export function rowsById({ specs }: Machine): ReadonlyMap<string, readonly [Spec, ...Spec[]]> {
  const groups = new Map<string, readonly [Spec, ...Spec[]]>();
  for (const row of specs) groups.set(row.id, [...(groups.get(row.id) ?? []), row] as [Spec, ...Spec[]]);
  return groups;
}

/** Rows of a machine, in the order of the table, that hold for the model years of a lesson; of some ids, or all. */
export function rowsOfLesson(machine: Machine, lesson: Lesson, ids?: ReadonlySet<string>): readonly Spec[] {
  const years = parseYears(lesson.years, machine.years);
  return machine.specs.filter(
    ({ id, years: { from, to } }) =>
      (!ids || ids.has(id)) && (!years.ok || (from <= years.value.to && years.value.from <= to)),
  );
}

/** Rows of every id a step cites, for the model years of the lesson. */
export function rowsCited(lesson: Lesson, machine: Machine, { cites }: Passage): readonly Spec[] {
  return rowsOfLesson(machine, lesson, new Set(cites.map(({ spec }) => spec)));
}

/** The rows of a spec that hold for a lesson's model years, each with its machines when there are several. */
export function rowsFor(machine: Machine, lesson: Lesson, id: string, locale: Locale = ENGLISH): RowShown[] {
  return labelledRows(machine, rowsOfLesson(machine, lesson, new Set([id])), locale);
}

/** Rows of one id, each with whom it concerns when there are several. */
export function labelledRows(machine: Machine, rows: readonly Spec[], locale: Locale = ENGLISH): RowShown[] {
  return rows.length > 1
    ? rows.map((row) => ({ row, whose: whoseRow(machine, row, rows, locale) }))
    : rows.map((row) => ({ row }));
}

type Condition = NonNullable<Spec['written']['condition']>;

const CONDITIONS: Readonly<Record<Condition, string>> = {
  dry: english('dry'),
  oiled: english('oiled'),
  greased: english('greased'),
  'anti-seize': english('anti-seize'),
  threadlocker: english('threadlocker'),
};

/** The state of the threads that a value holds for. */
export function conditionInWords(condition: Condition, locale: Locale = ENGLISH): string {
  return wording(locale).t(CONDITIONS[condition]);
}

/**
 * Whom a row concerns, told from the rows beside it: model years, variants, regions, and the state of the threads where
 * the rows differ by it.
 */
export function whoseRow(machine: Machine, row: Spec, rows: readonly Spec[], locale: Locale = ENGLISH): string {
  const { condition } = row.written;
  const differs = rows.some(({ written }) => written.condition !== condition);
  return [
    applicabilityInWords(row, machine, locale),
    ...(differs && condition ? [conditionInWords(condition, locale)] : []),
  ]
    .filter((part) => part !== '')
    .join(', ');
}

/** Every spec that a step cites, once each, in the order of the text; one without a row is left out. */
export function citedSpecs(
  machine: Machine,
  lesson: Lesson,
  { cites }: Passage,
  locale: Locale = ENGLISH,
): CitedSpec[] {
  return [...new Set(cites.map(({ spec }) => spec))].flatMap((id) => {
    const [first, ...others] = rowsFor(machine, lesson, id, locale);
    return first ? [{ title: first.row.title, rows: [first, ...others] }] : [];
  });
}
