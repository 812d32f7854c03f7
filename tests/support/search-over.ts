import { type Filters, indexOf, Search, type SearchData, wholeSource } from '../../src/core/search/index.ts';

/**
 * A search over records, its answers with their ids and the sentences found.
 *
 * @param excerpts of so many hits
 */
export function searchOver(
  data: SearchData,
  search = new Search(wholeSource(indexOf(data))),
  excerpts = Number.POSITIVE_INFINITY,
) {
  return {
    async find(typed: string, filters?: Filters) {
      const { places, terms, ...others } = await search.find(typed, filters);
      return {
        ...others,
        hits: places.map((place, at) => ({
          id: data.records[place]?.id ?? '',
          excerpt: at < excerpts ? search.excerpt(data.records[place]?.text ?? '', terms) : [],
        })),
      };
    },
  };
}

export type SearchOver = ReturnType<typeof searchOver>;
