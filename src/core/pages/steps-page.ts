import { english } from '../locale/index.ts';
import { type Machine, type Shop, SIGNAL_WORDS } from '../model/index.ts';
import { labelledRows, rowsById } from '../programme/index.ts';
import { type Filter, type StepRecord, specRecordId, stepRecords } from '../search/index.ts';
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

/** Everything the step index says, in plain values. */
export interface StepsPage {
  readonly frame: SiteFrame;
  /** Those with something to choose from. */
  readonly filters: readonly StepsFilter[];
  readonly lessons: readonly {
    readonly id: string;
    readonly title: string;
    readonly chapters: readonly {
      readonly id: string;
      readonly title: string;
      readonly steps: readonly StepListed[];
    }[];
  }[];
  readonly specs: readonly SpecListed[];
}

export function stepsPage(shop: Shop): StepsPage {
  const records = stepRecords(shop);
  const listed = records.map((record) => stepListed(shop, record));
  const titles = (all: readonly string[]) =>
    [...new Set(all)].toSorted((a, b) => a.localeCompare(b)).map((value) => ({ value }));
  const machines = new Map(records.map(({ machine }) => [machine.title, machine.id]));
  const filters: StepsFilter[] = [
    {
      name: 'machine',
      label: english('Machine'),
      values: titles([...machines.keys()]).map(({ value }) => ({ value, machine: machines.get(value) ?? value })),
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
      values: SIGNAL_WORDS.filter((word) => records.some(({ hazards }) => hazards.includes(word))).map((value) => ({
        value,
      })),
    },
    {
      name: 'spec',
      label: english('Spec'),
      values: titles(records.flatMap(({ specs }) => specs.map(({ title }) => title))),
    },
  ];
  return {
    frame: siteFrame(shop),
    filters: filters.filter(({ values }) => values.length > 0),
    lessons: groups(listed, ({ lesson }) => lesson).map(({ id, title, steps }) => ({
      id,
      title,
      chapters: groups(steps, ({ chapter }) => chapter),
    })),
    specs: shop.machines.flatMap((machine) => specsListed(shop, machine)),
  };
}

function specsListed(shop: Shop, machine: Machine): SpecListed[] {
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

/** Steps by what they belong to, in the order they come. */
function groups(
  steps: readonly StepListed[],
  of: (record: StepRecord) => { readonly id: string; readonly title: string },
) {
  const heads = new Map(steps.map(({ record }) => [of(record).id, of(record)]));
  return [...heads.values()].map(({ id, title }) => ({
    id,
    title,
    steps: steps.filter(({ record }) => of(record).id === id),
  }));
}

function stepListed(shop: Shop, record: StepRecord): StepListed {
  const machine = shop.machines.find(({ id }) => id === record.machine.id);
  const lesson = shop.lessons.find(({ id }) => id === record.lesson.id);
  const step = lesson?.chapters.flatMap(({ steps }) => steps).find(({ id }) => id === record.id);
  const places = [record.lesson.title, record.chapter.title];
  return {
    record,
    language: lesson ? languageOfLesson(shop, lesson) : shop.locale.tag,
    specs: machine && lesson && step ? specsShown(shop, lesson, machine, step) : [],
    from: [...places, ...(shop.machines.length > 1 ? [record.machine.title] : [])].join(' · '),
  };
}
