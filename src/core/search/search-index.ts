import type { Part } from '../spec/index.ts';
import { type Counted, countRecords, FIELDS, filterKey } from './counted.ts';
import type { Filter, SearchData } from './search-data.ts';
import { SearchWords } from './search-words.ts';

/** Where a word stands, record by record: places in the list of records, ascending. */
export interface Postings {
  readonly places: Numbers;
  /** How often in each; absent where it is once in all. */
  readonly counts?: Numbers;
  /** How many different words the field has in each. */
  readonly lengths: Numbers;
}

/** Numbers in a list, or packed as those of a large index are. */
export type Numbers = readonly number[] | Float64Array;

/** A word of the index. */
export interface IndexedWord {
  /** As it is written somewhere; absent where it is written as it is compared. */
  readonly written?: string;
}

/** By field, in the order of `FIELDS`; absent where it stands in no record. */
export type WordPostings = readonly (Postings | undefined)[];

/** Records with the same values. */
export interface ValuedRecords {
  readonly values: readonly Part[];
  readonly places: Numbers;
}

/** What is known of the records as a whole. */
export interface SearchFacts extends Pick<SearchData, 'language' | 'synonyms' | 'skip'> {
  readonly records: number;
  /** The first so many of them are steps, the others specs. */
  readonly steps: number;
  /** Different words a field has, on average, in the order of `FIELDS`. */
  readonly averages: readonly number[];
}

/** Where search looks things up. Of a large shop each part of it comes when it is asked for. */
export interface SearchSource {
  readonly facts: SearchFacts;
  /** The words that begin with a letter (a UTF-16 unit). */
  words(letter: string): Promise<ReadonlyMap<string, IndexedWord>>;
  /** Where words stand, by word; one that is not known is left out. */
  postings(words: readonly string[]): Promise<ReadonlyMap<string, WordPostings>>;
  /** Records with values of some kinds; values of other kinds may be left out. */
  values(kinds: readonly string[]): Promise<readonly ValuedRecords[]>;
  /** The records that fit what is chosen of a filter. */
  chosen(filter: Filter, value: string): Promise<ReadonlySet<number>>;
}

/** All that a search over a shop looks up, worked out. */
export interface SearchIndex {
  readonly facts: SearchFacts;
  readonly words: ReadonlyMap<string, IndexedWord & { readonly postings: WordPostings }>;
  readonly values: readonly ValuedRecords[];
  /** By filter and value, as `filterKey` writes them. */
  readonly filters: ReadonlyMap<string, readonly number[]>;
}

interface WordMade {
  written?: string;
  readonly postings: ({ places: number[]; counts: number[]; lengths: number[] } | undefined)[];
}

/** Reads all records of a shop. */
export function indexOf({ language, synonyms, skip, records }: SearchData): SearchIndex {
  const first = records.findIndex(({ id }) => !id.startsWith('step '));
  const counted = countRecords(records, new SearchWords(language, synonyms, skip));
  return indexOfCounted({ language, synonyms, skip }, [counted], first === -1 ? records.length : first);
}

/**
 * The index of records that were counted, one lot after the other.
 *
 * @param steps the first so many of all records are steps, the others specs
 */
export function indexOfCounted(
  words: Pick<SearchFacts, 'language' | 'synonyms' | 'skip'>,
  lots: readonly Counted[],
  steps: number,
): SearchIndex {
  const index = new Map<string, WordMade>();
  const averages = FIELDS.map(() => 0);
  const filters = new Map<string, number[]>();
  const valued = new Map<string, { values: readonly Part[]; places: number[] }>();
  let place = 0;
  for (const { terms, written, numbers, filters: chosen, values } of lots) {
    const made = terms.map((term, at) => {
      const own = index.get(term) ?? newWord(index, term);
      const known = written[at];
      if (own.written === undefined && known) own.written = known;
      return own;
    });
    let at = 0;
    for (const [record, keys] of chosen.entries()) {
      for (const f of FIELDS.keys()) {
        const different = numbers[at++] ?? 0;
        // An empty text still is one word, the empty one, to the formula.
        const length = Math.max(1, different);
        averages[f] = ((averages[f] ?? 0) * place + length) / (place + 1);
        for (const end = at + 2 * different; at < end; at += 2) {
          const word = made[numbers[at] ?? 0];
          if (word) note(word, f, place, numbers[at + 1] ?? 0, length);
        }
      }
      for (const key of keys) {
        const own = filters.get(key);
        if (own) own.push(place);
        else filters.set(key, [place]);
      }
      const parts = values[record] ?? [];
      if (parts.length > 0) {
        const key = JSON.stringify(parts);
        const own = valued.get(key);
        if (own) own.places.push(place);
        else valued.set(key, { values: parts, places: [place] });
      }
      place++;
    }
  }
  return {
    facts: { ...words, records: place, averages, steps },
    ...{ words: index, values: [...valued.values()], filters },
  };
}

function newWord(words: Map<string, WordMade>, term: string): WordMade {
  const made: WordMade = { postings: [] };
  words.set(term, made);
  return made;
}

function note(made: WordMade, field: number, place: number, count: number, length: number): void {
  const own = made.postings[field] ?? { places: [], counts: [], lengths: [] };
  made.postings[field] = own;
  own.places.push(place);
  own.counts.push(count);
  own.lengths.push(length);
}

/** An index that is there as a whole. */
export function wholeSource({ facts, words, values, filters }: SearchIndex): SearchSource {
  const byLetter = new Map<string, Map<string, IndexedWord>>();
  for (const [word, known] of words) {
    const letter = word.slice(0, 1);
    const own = byLetter.get(letter) ?? new Map<string, IndexedWord>();
    own.set(word, known);
    byLetter.set(letter, own);
  }
  return {
    facts,
    words: async (letter) => byLetter.get(letter) ?? new Map(),
    postings: async (wanted) =>
      new Map(
        wanted.flatMap((word) => {
          const known = words.get(word);
          return known ? [[word, known.postings] as const] : [];
        }),
      ),
    values: async () => values,
    chosen: async (filter, value) => new Set(filters.get(filterKey(filter, value))),
  };
}
