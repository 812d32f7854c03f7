import { wording } from '../locale/index.ts';
import type { Machine, Shop, Spec } from '../model/index.ts';
import { rowsById } from '../programme/index.ts';
import { type Part, partsOf, showQuantity } from '../spec/index.ts';
import { KIND_WORDS } from './kind-words.ts';
import type { Synonyms } from './search-words.ts';
import { type StepRecord, stepRecords } from './step-records.ts';

export type Filter = 'machine' | 'tool' | 'hazard' | 'spec';

/** A step or a row of the spec table as search finds it. */
export interface SearchRecord {
  /** `step chain/set-the-slack`, `spec tarn-420/chain-slack`: the row of the page that shows it. */
  readonly id: string;
  readonly title: string;
  /** Where it belongs: chapter and lesson, or section and machine. */
  readonly context: string;
  /** What else it may be found by, and is never shown. */
  readonly also: string;
  /** Sentences that say what it is about; shown where they hold what was looked for. */
  readonly text: string;
  readonly filters: Readonly<Record<Filter, readonly string[]>>;
  /** The values it has or cites. */
  readonly values: readonly Part[];
}

/** All that search needs to know of a shop, as JSON. */
export interface SearchData {
  readonly language: string;
  readonly synonyms: readonly Synonyms[];
  readonly skip: readonly string[];
  readonly records: readonly SearchRecord[];
}

/** How the words of a shop are compared. */
export function searchedBy(shop: Shop): Pick<SearchData, 'language' | 'synonyms' | 'skip'> {
  return {
    language: shop.locale.tag,
    synonyms: (shop.words.words ?? []).map(({ say, also }) => ({ say, also })),
    skip: shop.words.skip ?? [],
  };
}

/** What a shop's search looks through: every step of its lessons, and every spec, cited by a step or not. */
export function searchData(shop: Shop): SearchData {
  return {
    ...searchedBy(shop),
    records: [...stepRecords(shop).map(searchedStep), ...searchedSpecs(shop)],
  };
}

/** Every spec of a shop as search finds it. */
export function searchedSpecs(shop: Shop): SearchRecord[] {
  return shop.machines.flatMap((machine) => [...rowsById(machine).values()].map((rows) => ofSpec(shop, machine, rows)));
}

export const stepRecordId = (lesson: string, step: string) => `step ${lesson}/${step}`;
export const specRecordId = (machine: string, spec: string) => `spec ${machine}/${spec}`;

/** A step as search finds it. */
export function searchedStep(record: StepRecord): SearchRecord {
  const { lesson, machine, chapter, specs, tools, hazards, rows } = record;
  return {
    id: stepRecordId(lesson.id, record.id),
    title: record.title,
    context: `${chapter.title}. ${lesson.title}. ${machine.title}`,
    also: record.also.join('. '),
    text: record.text,
    filters: {
      machine: [machine.title],
      tool: tools.map(({ title }) => title),
      hazard: hazards,
      spec: specs.map(({ title }) => title),
    },
    values: rows.flatMap(valuesOf),
  };
}

/** The rows of one id are one record: which of them is meant, the machine and the year decide. */
function ofSpec(shop: Shop, machine: Machine, rows: readonly [Spec, ...Spec[]]): SearchRecord {
  const [{ id, title, written }] = rows;
  const { kind } = written;
  const sections = rows.flatMap(({ written: { source } }) => (source?.section ? [source.section] : []));
  const shown = rows.flatMap(({ quantity }) => {
    if (!quantity) return [];
    const { primary, secondary } = showQuantity(quantity, shop.info.units, shop.locale);
    return secondary === undefined ? [primary] : [primary, secondary];
  });
  return {
    id: specRecordId(machine.id, id),
    title,
    context: `${[...new Set(sections)].join('. ')}. ${machine.title}`,
    also: [
      ...rows.flatMap(({ written: { note } }) => note ?? []),
      id.replaceAll('-', ' '),
      wording(shop.locale).t(KIND_WORDS[kind]),
      ...shown,
    ].join('. '),
    // The note of one row among several is not for everybody.
    text: rows.length === 1 ? (written.note ?? '') : '',
    filters: { machine: [machine.title], tool: [], hazard: [], spec: [title] },
    values: rows.flatMap(valuesOf),
  };
}

function valuesOf({ quantity }: Spec): readonly Part[] {
  return quantity ? partsOf(quantity) : [];
}
