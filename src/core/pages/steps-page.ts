import { english } from '../locale/index.ts';
import { type Lesson, type Machine, type Shop, SIGNAL_WORDS } from '../model/index.ts';
import { labelledRows, rowsById } from '../programme/index.ts';
import { type Filter, lessonRecords, type StepRecord, specRecordId, stepRecords } from '../search/index.ts';
import { groupBy } from '../time/index.ts';
import { languageOfLesson } from './languages.ts';
import { type SpecShown, specsShown } from './lesson-page.ts';
import { type SiteFrame, siteFrame } from './site-frame.ts';
import { type ValueShown, valuesShown } from './value-shown.ts';

/** A step in the step index, with the values it needs. */
export interface StepListed {
  readonly record: StepRecord;
  /** That its lesson is written in, BCP 47. */
  readonly language: string;
  readonly specs: readonly SpecShown[];
  /** Where it comes from: lesson, chapter, and the machine where the shop teaches several. */
  readonly from: string;
}

/** A spec as a search shows it among the steps, cited by one or not. */
export interface SpecListed {
  /** Of its search record. */
  readonly id: string;
  readonly title: string;
  readonly machine: string;
  /** Its first row in the spec table: path on the site. */
  readonly path: string;
  readonly values: readonly ValueShown[];
}

export interface StepsFilter {
  readonly name: Filter;
  readonly label: string;
  /** `machine` is the id, where a value is the title of one. */
  readonly values: readonly { readonly value: string; readonly machine?: string }[];
}

/** A lesson of the step index, or the part of it that stands on a page. */
export interface LessonListed {
  readonly id: string;
  readonly title: string;
  /** That it is written in, BCP 47. */
  readonly language: string;
  readonly chapters: readonly {
    readonly id: string;
    readonly title: string;
    readonly steps: readonly StepListed[];
  }[];
}

/** Everything the step index says, in plain values. */
export interface StepsPage {
  readonly frame: SiteFrame;
  /** Those with something to choose from. */
  readonly filters: readonly StepsFilter[];
  readonly lessons: readonly LessonListed[];
  readonly specs: readonly SpecListed[];
}

/** The step index of a small shop, on one page. */
export function stepsPage(shop: Shop): StepsPage {
  return {
    frame: siteFrame(shop),
    filters: stepsFilters(shop),
    lessons: shop.lessons.flatMap((lesson) => lessonListed(shop, lesson) ?? []),
    specs: specsListed(shop),
  };
}

/** What the steps of a shop can be narrowed to. */
export function stepsFilters(shop: Shop): StepsFilter[] {
  const records = stepRecords(shop);
  const titles = (all: Iterable<string>) =>
    [...new Set(all)].toSorted((a, b) => a.localeCompare(b)).map((value) => ({ value }));
  const machines = new Map(records.map(({ machine }) => [machine.title, machine.id]));
  const hazards = new Set(records.flatMap((record) => record.hazards));
  const filters: StepsFilter[] = [
    {
      name: 'machine',
      label: english('Machine'),
      values: titles(machines.keys()).map(({ value }) => ({ value, machine: machines.get(value) ?? value })),
    },
    {
      name: 'tool',
      label: english('Tool'),
      values: titles(records.flatMap(({ tools }) => tools.map(({ title }) => title))),
    },
    {
      name: 'hazard',
      label: english('Hazard'),
      // Worst first, not by letter.
      values: SIGNAL_WORDS.filter((word) => hazards.has(word)).map((value) => ({ value })),
    },
    {
      name: 'spec',
      label: english('Spec'),
      values: titles(records.flatMap(({ specs }) => specs.map(({ title }) => title))),
    },
  ];
  return filters.filter(({ values }) => values.length > 0);
}

/** A lesson of the step index, with all its steps or a stretch of them; nothing where none is shown. */
export function lessonListed(shop: Shop, lesson: Lesson, { from = 0, to = Infinity } = {}): LessonListed | undefined {
  const steps = lessonRecords(shop, lesson)
    .slice(from, to)
    .map((record) => stepListed(shop, record));
  if (steps.length === 0) return undefined;
  return {
    id: lesson.id,
    title: lesson.title,
    language: languageOfLesson(shop, lesson),
    chapters: [...groupBy(steps, ({ record }) => record.chapter.id)].map(([id, own]) => ({
      id,
      title: own[0]?.record.chapter.title ?? id,
      steps: own,
    })),
  };
}

const known = new WeakMap<Shop, readonly SpecListed[]>();

/** Every spec of a shop, as a search shows it. Made once for all pages. */
export function specsListed(shop: Shop): readonly SpecListed[] {
  const specs = known.get(shop) ?? shop.machines.flatMap((machine) => specsOf(shop, machine));
  known.set(shop, specs);
  return specs;
}

function specsOf(shop: Shop, machine: Machine): SpecListed[] {
  return [...rowsById(machine)].map(([id, rows]) => {
    const values = valuesShown(shop, machine, labelledRows(machine, rows, shop.locale));
    return {
      id: specRecordId(machine.id, id),
      title: rows[0].title,
      machine: machine.title,
      path: values[0]?.path ?? `specs/${machine.id}/`,
      values,
    };
  });
}

/** A step of the step index. */
export function stepListed(shop: Shop, record: StepRecord): StepListed {
  const { lesson, machine, step } = record.from;
  const places = [record.lesson.title, record.chapter.title];
  return {
    record,
    language: languageOfLesson(shop, lesson),
    specs: machine ? specsShown(shop, lesson, machine, step) : [],
    from: [...places, ...(shop.machines.length > 1 ? [record.machine.title] : [])].join(' · '),
  };
}
