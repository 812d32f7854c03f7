import type { Shop } from '../../core/model/index.ts';
import {
  countRecords,
  type DividedHead,
  divideIndex,
  indexOfCounted,
  lessonRecords,
  SearchWords,
  type StepRecord,
  searchedBy,
  searchedSpecs,
  searchedStep,
  stepsShown,
} from '../../core/search/index.ts';
import { siteSource, stepsPartsOfSite } from './open-site.ts';

/** So many rows come together where a search of a large shop shows what it has found. */
export const ROWS_OF_BLOCK = 20;

const shownSteps = new WeakMap<Shop, ReturnType<typeof stepsShown>>();
const specs = new WeakMap<Shop, ReturnType<typeof searchedSpecs>>();
const divided = new WeakMap<Shop, ReturnType<typeof divideIndex>>();

/** The index of a shop's search in parts; made once for all that needs it. */
export function dividedSearchOf(shop: Shop): ReturnType<typeof divideIndex> {
  const known = divided.get(shop) ?? dividedSearch(shop);
  divided.set(shop, known);
  return known;
}

function dividedSearch(shop: Shop): ReturnType<typeof divideIndex> {
  const by = searchedBy(shop);
  const compared = new SearchWords(by.language, by.synonyms, by.skip);
  const { counts } = siteSource();
  const lots = shop.lessons
    .filter(({ draft }) => !draft)
    .map((lesson) => {
      const count = () => countRecords(lessonRecords(shop, lesson).map(searchedStep), compared);
      return counts ? counts.of(by.language, lesson.id, count) : count();
    });
  const index = indexOfCounted(by, [...lots, countRecords(specsOf(shop), compared)], stepsOf(shop).length);
  return divideIndex(index);
}

/** What a page has to know to search in parts. */
export function dividedHeadOf(shop: Shop): DividedHead & { readonly block: number } {
  return { ...dividedSearchOf(shop).head, block: ROWS_OF_BLOCK };
}

/** Names of the blocks of rows; none where the step index is one page and has them all. */
export async function blocksOfSite(): Promise<string[]> {
  if ((await stepsPartsOfSite()).length === 0) return [];
  const { shop } = await siteSource().open();
  const blocks = Math.ceil((stepsOf(shop).length + specsOf(shop).length) / ROWS_OF_BLOCK);
  return Array.from({ length: blocks }, (_, block) => String(block));
}

/** What a block of rows shows, in the order of search: steps, then specs by their place among all specs, and what each says. */
export interface RowsOfBlock {
  readonly steps: readonly StepRecord[];
  /** Half-open. */
  readonly specs: readonly [from: number, to: number];
  readonly texts: readonly string[];
}

export function rowsOfBlock(shop: Shop, block: number): RowsOfBlock {
  const from = block * ROWS_OF_BLOCK;
  const to = from + ROWS_OF_BLOCK;
  const all = stepsOf(shop);
  const steps = all
    .slice(from, to)
    .flatMap(({ lesson, step }) => lessonRecords(shop, lesson).find(({ id }) => id === step.id) ?? []);
  const own = [Math.max(0, from - all.length), Math.max(0, to - all.length)] as const;
  const texts = [...steps, ...specsOf(shop).slice(...own)].map(({ text }) => text);
  return { steps, specs: own, texts };
}

function stepsOf(shop: Shop): ReturnType<typeof stepsShown> {
  const known = shownSteps.get(shop) ?? stepsShown(shop);
  shownSteps.set(shop, known);
  return known;
}

function specsOf(shop: Shop): ReturnType<typeof searchedSpecs> {
  const known = specs.get(shop) ?? searchedSpecs(shop);
  specs.set(shop, known);
  return known;
}
