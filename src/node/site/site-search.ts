import type { Shop } from '../../core/model/index.ts';
import {
  type DividedHead,
  divideIndex,
  indexOf,
  type SearchData,
  type StepRecord,
  searchData,
  stepRecords,
} from '../../core/search/index.ts';
import { siteSource, stepsPartsOfSite } from './open-site.ts';

/** So many rows come together where a search of a large shop shows what it has found. */
export const ROWS_OF_BLOCK = 20;

interface SiteSearch extends SearchData {
  readonly steps: readonly StepRecord[];
}

const searches = new WeakMap<Shop, SiteSearch>();
const divided = new WeakMap<Shop, ReturnType<typeof divideIndex>>();

/** What the search of a shop looks through; made once for all that needs it. */
export function searchOf(shop: Shop): SiteSearch {
  const known = searches.get(shop) ?? { ...searchData(shop), steps: stepRecords(shop) };
  searches.set(shop, known);
  return known;
}

/** The same in parts. */
export function dividedSearchOf(shop: Shop): ReturnType<typeof divideIndex> {
  const known = divided.get(shop) ?? divideIndex(indexOf(searchOf(shop)));
  divided.set(shop, known);
  return known;
}

/** What a page has to know to search in parts. */
export function dividedHeadOf(shop: Shop): DividedHead & { readonly block: number } {
  return { ...dividedSearchOf(shop).head, block: ROWS_OF_BLOCK };
}

/** Names of the blocks of rows; none where the step index is one page and has them all. */
export async function blocksOfSite(): Promise<string[]> {
  if ((await stepsPartsOfSite()).length === 0) return [];
  const { shop } = await siteSource().open();
  const blocks = Math.ceil(searchOf(shop).records.length / ROWS_OF_BLOCK);
  return Array.from({ length: blocks }, (_, block) => String(block));
}
