import type { Part } from '../spec/index.ts';
import { filterKey } from './counted.ts';
import { packAscending, packNumbers, unpackAscending, unpackNumbers } from './packed-numbers.ts';
import type {
  IndexedWord,
  Postings,
  SearchFacts,
  SearchIndex,
  SearchSource,
  ValuedRecords,
  WordPostings,
} from './search-index.ts';

/** What has to be known of a divided index to find its parts. */
export interface DividedHead {
  readonly facts: SearchFacts;
  /** First letters of words; of each there is a part with its words. */
  readonly letters: string;
  /** The first word of each part that says where words stand, in the order of their code units. */
  readonly postings: readonly string[];
  /** How many parts say which records fit a choice. */
  readonly choices: number;
  readonly kinds: readonly string[];
}

/** A part says where words stand in about so many letters. */
const PART_LETTERS = 24_000;

type WordsPart = readonly (readonly [word: string, written: string | 0])[];
/** Of each field: places, counts and lengths as packed numbers; counts are empty where all are 1. */
type PostingsPart = Readonly<Record<string, readonly (readonly [string, string, string] | 0)[]>>;
type ChoicesPart = Readonly<Record<string, string>>;
interface ValuesPart {
  readonly values: readonly Part[];
  /** A number for the set, the same in every part; which of the values it has; the records that have it. */
  readonly sets: readonly (readonly [set: number, values: string, places: string])[];
}

/** An index in parts, by name. */
export function divideIndex(index: SearchIndex): {
  readonly head: DividedHead;
  readonly parts: ReadonlyMap<string, object>;
} {
  const { facts, words, values, filters } = index;
  const parts = new Map<string, object>();
  const sorted = [...words].toSorted(([a], [b]) => (a < b ? -1 : 1));

  const letters = [...new Set(sorted.map(([word]) => word.slice(0, 1)))];
  const byLetter = new Map(letters.map((letter) => [letter, [] as (readonly [string, string | 0])[]]));
  for (const [word, { written }] of sorted) byLetter.get(word.slice(0, 1))?.push([word, written ?? 0]);
  for (const [letter, own] of byLetter) parts.set(wordsName(letter), own);

  const first: string[] = [];
  let open: Record<string, PostingsPart[string]> = {};
  let room = 0;
  for (const [word, { postings }] of sorted) {
    const packed = postings.map((own) => (own ? packPostings(own) : (0 as const)));
    const size = word.length + packed.flat().reduce((sum, text) => sum + String(text).length + 3, 5);
    if (first.length === 0 || size > room) {
      open = {};
      parts.set(postingsName(first.length), open);
      first.push(word);
      room = PART_LETTERS;
    }
    open[word] = packed;
    room -= size;
  }

  const packedFilters = [...filters].map(([key, places]) => [key, packAscending(places)] as const);
  const choices = Math.max(
    1,
    Math.ceil(packedFilters.reduce((sum, [key, text]) => sum + key.length + text.length, 0) / PART_LETTERS),
  );
  for (let i = 0; i < choices; i++)
    parts.set(choicesName(i), Object.fromEntries(packedFilters.filter(([key]) => shareOf(key, choices) === i)));

  const kinds = [...new Set(values.flatMap((set) => set.values.map(({ kind }) => kind)))];
  for (const kind of kinds) parts.set(valuesName(kind), valuesOfKind(values, kind));
  return { head: { facts, letters: letters.join(''), postings: first, choices, kinds }, parts };
}

const wordsName = (letter: string) => `words-${letter.charCodeAt(0).toString(16)}`;
const postingsName = (part: number) => `places-${part}`;
const choicesName = (part: number) => `choices-${part}`;
const valuesName = (kind: string) => `values-${kind}`;

function packPostings({ places, counts, lengths }: Postings): readonly [string, string, string] {
  const once = counts === undefined || counts.every((count) => count === 1);
  return [packAscending(places), once ? '' : packNumbers(counts), packNumbers(lengths)];
}

function unpackPostings([places, counts, lengths]: readonly [string, string, string]): Postings {
  return {
    places: unpackAscending(places),
    ...(counts === '' ? {} : { counts: unpackNumbers(counts) }),
    lengths: unpackNumbers(lengths),
  };
}

function valuesOfKind(all: readonly ValuedRecords[], kind: string): ValuesPart {
  const known = new Map<string, number>();
  const values: Part[] = [];
  const sets = all.flatMap((set, number): ValuesPart['sets'] => {
    const own = set.values.filter((part) => part.kind === kind);
    if (own.length === 0) return [];
    const which = own.map((part) => {
      const key = JSON.stringify(part);
      const at = known.get(key) ?? values.push(part) - 1;
      known.set(key, at);
      return at;
    });
    return [[number, packNumbers(which), packAscending(set.places)]];
  });
  return { values, sets };
}

/** Which of some parts a choice is in. Source: FNV-1a, 32 bits (draft-eastlake-fnv, 2), over UTF-16 units. */
function shareOf(key: string, parts: number): number {
  let sum = 0x811c9dc5;
  for (let i = 0; i < key.length; i++) sum = Math.imul(sum ^ key.charCodeAt(i), 0x01000193);
  return (sum >>> 0) % parts;
}

/**
 * An index whose parts come when they are asked for, once each.
 *
 * @param read a part of it, by name
 */
export function dividedSource(head: DividedHead, read: (name: string) => Promise<unknown>): SearchSource {
  const coming = new Map<string, Promise<unknown>>();
  const part = <T>(name: string): Promise<T> => {
    const known = coming.get(name) ?? read(name);
    coming.set(name, known);
    // What failed is tried again by whoever asks next.
    known.catch(() => coming.delete(name));
    return known as Promise<T>;
  };
  const unpacked = new Map<string, WordPostings>();
  const partOf = (word: string) => head.postings.findLastIndex((first) => first <= word);
  return {
    facts: head.facts,
    async words(letter) {
      if (!head.letters.includes(letter) || letter === '') return new Map();
      const own = await part<WordsPart>(wordsName(letter));
      return new Map(own.map(([word, written]): [string, IndexedWord] => [word, written === 0 ? {} : { written }]));
    },
    async postings(words) {
      const found = await Promise.all(
        words.map(async (word) => {
          const at = partOf(word);
          const packed = at === -1 ? undefined : await part<PostingsPart>(postingsName(at));
          if (!packed || !Object.hasOwn(packed, word)) return [];
          const own =
            unpacked.get(word) ?? (packed[word] ?? []).map((each) => (each ? unpackPostings(each) : undefined));
          unpacked.set(word, own);
          return [[word, own] as const];
        }),
      );
      return new Map(found.flat());
    },
    async values(kinds) {
      const there = kinds.filter((kind) => head.kinds.includes(kind));
      const parts = await Promise.all(there.map((kind) => part<ValuesPart>(valuesName(kind))));
      const sets = new Map<number, { values: readonly Part[]; places: string }>();
      for (const { values, sets: own } of parts)
        for (const [set, which, places] of own) {
          const before = sets.get(set)?.values ?? [];
          const more = [...unpackNumbers(which)].flatMap((at) => values[at] ?? []);
          sets.set(set, { values: [...before, ...more], places });
        }
      return [...sets.values()].map(({ values, places }) => ({ values, places: unpackAscending(places) }));
    },
    async chosen(filter, value) {
      const key = filterKey(filter, value);
      const own = await part<ChoicesPart>(choicesName(shareOf(key, head.choices)));
      return new Set(Object.hasOwn(own, key) ? unpackAscending(own[key] ?? '') : []);
    },
  };
}
