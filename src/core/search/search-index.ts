import type { Part } from '../spec/index.ts';
import type { Filter, SearchData } from './search-data.ts';
import { plain, SearchWords } from './search-words.ts';

/** What of a record is searched by words. */
export const FIELDS = ['title', 'also', 'context', 'text'] as const;
export type Field = (typeof FIELDS)[number];

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

export const filterKey = (filter: Filter, value: string) => `${filter} ${value}`;

interface WordMade {
  written?: string;
  readonly postings: ({ places: number[]; counts: number[]; lengths: number[] } | undefined)[];
}

/** Reads all records of a shop. */
export function indexOf(data: SearchData): SearchIndex {
  const { language, synonyms, skip, records } = data;
  const compared = new SearchWords(language, synonyms, skip);
  const words = new Map<string, WordMade>();
  const averages = FIELDS.map(() => 0);
  const filters = new Map<string, number[]>();
  const valued = new Map<string, { values: readonly Part[]; places: number[] }>();
  for (const [place, record] of records.entries()) {
    for (const [f, field] of FIELDS.entries()) {
      const counts = countsOf(record[field], compared, words);
      // An empty text still is one word, the empty one, to the formula.
      const length = Math.max(1, counts.size);
      averages[f] = ((averages[f] ?? 0) * place + length) / (place + 1);
      for (const [made, count] of counts) note(made, f, place, count, length);
    }
    for (const [filter, values] of Object.entries(record.filters))
      for (const value of new Set(values)) {
        const key = filterKey(filter as Filter, value);
        const own = filters.get(key);
        if (own) own.push(place);
        else filters.set(key, [place]);
      }
    if (record.values.length > 0) {
      const key = JSON.stringify(record.values);
      const own = valued.get(key);
      if (own) own.places.push(place);
      else valued.set(key, { values: record.values, places: [place] });
    }
  }
  const steps = records.findIndex(({ id }) => !id.startsWith('step '));
  const facts = { language, synonyms, skip, records: records.length, averages };
  return {
    facts: { ...facts, steps: steps === -1 ? records.length : steps },
    words,
    values: [...valued.values()],
    filters,
  };
}

/** How often each word stands in a text; a word that is new is put down with how it is written. */
function countsOf(text: string, compared: SearchWords, words: Map<string, WordMade>): ReadonlyMap<WordMade, number> {
  const counts = new Map<WordMade, number>();
  for (const { term, start, end } of compared.of(text)) {
    const known = words.get(term) ?? newWord(words, term);
    counts.set(known, (counts.get(known) ?? 0) + 1);
    if (known.written !== undefined) continue;
    const written = text.slice(start, end).toLowerCase();
    // A name of another word stands for it, and is not how it is written.
    if (plain(written).startsWith(term.slice(0, 3))) known.written = written;
  }
  return counts;
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
