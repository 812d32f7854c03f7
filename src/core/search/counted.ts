import type { Part } from '../spec/index.ts';
import type { Filter, SearchRecord } from './search-data.ts';
import { plain, type SearchWords } from './search-words.ts';

/** What of a record is searched by words. */
export const FIELDS = ['title', 'also', 'context', 'text'] as const;
export type Field = (typeof FIELDS)[number];

export const filterKey = (filter: Filter, value: string) => `${filter} ${value}`;

/**
 * What some records one after the other, such as the steps of a lesson, add to an index. It is the same wherever they
 * stand in it, and data alone, so that it can be kept.
 */
export interface Counted {
  /** The words that stand in them, in the order in which they are met. */
  readonly terms: readonly string[];
  /** How each is written somewhere; 0 where it only stands for another word. */
  readonly written: readonly (string | 0)[];
  /** Of each field of each record: how many different words it has, then of each its place in `terms` and how often it stands there. */
  readonly numbers: Uint32Array;
  /** By record, as {@link filterKey} writes them, each once. */
  readonly filters: readonly (readonly string[])[];
  readonly values: readonly (readonly Part[])[];
}

/** Counts the words of records. */
export function countRecords(records: readonly SearchRecord[], compared: SearchWords): Counted {
  const places = new Map<string, number>();
  const written: (string | 0)[] = [];
  const numbers: number[] = [];
  for (const record of records)
    for (const field of FIELDS) {
      const counts = new Map<number, number>();
      const text = record[field];
      for (const { term, start, end } of compared.of(text)) {
        const place = places.get(term) ?? places.size;
        if (place === places.size) {
          places.set(term, place);
          written.push(0);
        }
        counts.set(place, (counts.get(place) ?? 0) + 1);
        if (written[place] !== 0) continue;
        const own = text.slice(start, end).toLowerCase();
        // A name of another word stands for it, and is not how it is written.
        if (plain(own).startsWith(term.slice(0, 3))) written[place] = own;
      }
      numbers.push(counts.size);
      for (const [place, count] of counts) numbers.push(place, count);
    }
  return {
    ...{ terms: [...places.keys()], written, numbers: Uint32Array.from(numbers) },
    filters: records.map(({ filters }) => [
      ...new Set(
        Object.entries(filters).flatMap(([filter, values]) =>
          values.map((value) => filterKey(filter as Filter, value)),
        ),
      ),
    ]),
    values: records.map(({ values }) => values),
  };
}
