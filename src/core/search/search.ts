import { findTyped, type HeardQuantity } from '../heard/index.ts';
import { decimalSign } from '../locale/index.ts';
import { type ExcerptPiece, excerptOf } from './excerpt.ts';
import { type LookedUp, prefixWeight, ranked } from './ranking.ts';
import type { Filter } from './search-data.ts';
import type { IndexedWord, SearchSource } from './search-index.ts';
import { type SearchWord, SearchWords } from './search-words.ts';
import { meantWords } from './spelling.ts';
import { distanceFrom, isMeant } from './value-match.ts';

/** What a search comes to. */
export interface Answer {
  /** The records that fit, by their places: the best hundreds, best first, then the others as they stand. */
  readonly places: readonly number[];
  /** The words that were looked for, as they are compared; by them the sentence is chosen that shows a record. */
  readonly terms: readonly string[];
  /** What was typed, with slips mended; absent where it was taken as typed. */
  readonly meant?: string;
  /** A value that was typed and that no spec agrees with, in the words typed. */
  readonly withoutValue?: string;
}

export type Filters = Readonly<Partial<Record<Filter, string>>>;

/** Of so many words one may be missing. */
const ONE_MAY_MISS = 3;

type Fits = (place: number) => boolean;

/** Search over one shop. Asking it takes milliseconds, and the parts of the index that have to come. */
export class Search {
  readonly #source: SearchSource;
  readonly #words: SearchWords;
  /** Made once, before it is wanted: a browser takes as long to make one as to search. */
  readonly #sentences: Intl.Segmenter;

  constructor(source: SearchSource) {
    this.#source = source;
    const { language, synonyms, skip } = source.facts;
    this.#words = new SearchWords(language, synonyms, skip);
    this.#sentences = new Intl.Segmenter(language, { granularity: 'sentence' });
  }

  /** The records that fit what was typed and chosen, best first; all that fit the choice when nothing was typed. */
  async find(typed: string, filters: Filters = {}): Promise<Answer> {
    const { language, records } = this.#source.facts;
    const quantities = findTyped(withPoints(typed, language));
    const rest = quantities.reduceRight((text, { start, end }) => `${text.slice(0, start)} ${text.slice(end)}`, typed);
    const words = this.#words.of(rest);
    const fits = await this.#chosen(filters);
    if (quantities.length === 0 && words.length === 0)
      return { places: /\S/.test(typed) ? [] : [...Array(records).keys()].filter(fits), terms: [] };
    if (quantities.length === 0) return this.#byWords(rest, words, fits);
    const valued = (await this.#byValue(quantities)).filter(fits);
    const values = quantities.map(({ start, end }) => typed.slice(start, end)).join(', ');
    if (words.length === 0) return { places: valued, terms: [], ...(valued.length ? {} : { withoutValue: values }) };
    const among = new Set(valued);
    const within = await this.#byWords(rest, words, (place) => among.has(place));
    if (within.places.length > 0) return within;
    return { ...(await this.#byWords(rest, words, fits)), withoutValue: values };
  }

  /** The sentence of a record that holds most of what was looked for, from its text; empty where none holds any. */
  excerpt(text: string, terms: readonly string[]): readonly ExcerptPiece[] {
    if (terms.length === 0) return [];
    return excerptOf(text, new Set(terms), this.#words, this.#sentences);
  }

  /** Says of a record whether it fits what is chosen. */
  async #chosen(filters: Filters): Promise<Fits> {
    const sets = await Promise.all(
      Object.entries(filters).map(([filter, value]) => this.#source.chosen(filter as Filter, value)),
    );
    return (place) => sets.every((set) => set.has(place));
  }

  /** Specs with a value that agrees, the nearest first, then the steps that cite one. */
  async #byValue(quantities: readonly HeardQuantity[]): Promise<number[]> {
    const { steps } = this.#source.facts;
    return (await this.#source.values([...new Set(quantities.map(({ kind }) => kind))]))
      .filter(({ values }) => quantities.every((heard) => values.some((part) => isMeant(heard, part))))
      .flatMap(({ values, places }) => {
        const distances = quantities.map((heard) => Math.min(...values.map((part) => distanceFrom(heard, part))));
        const far = distances.reduce((sum, each) => sum + each, 0);
        return [...places].map((place) => ({ place, far, cites: place < steps ? 1 : 0 }));
      })
      .toSorted((a, b) => a.cites - b.cites || a.far - b.far || a.place - b.place)
      .map(({ place }) => place);
  }

  async #byWords(typed: string, words: readonly SearchWord[], fits: Fits): Promise<Answer> {
    const terms = words.map(({ term }) => term);
    // Most words are typed as they are known, and the last may still be typed on: of the others nothing more is asked.
    const [typedOn, there] = await Promise.all([this.#knownNear(terms.slice(-1)), this.#source.postings(terms)]);
    if (terms.slice(0, -1).every((term) => there.has(term))) {
      const whole = await this.#ranked(terms, terms.length, typedOn.and(there.keys()), fits);
      if (whole.length > 0) return { places: whole, terms };
    }
    const known = await this.#knownNear(terms);
    for (const mended of mendings(terms, known)) {
      const found = await this.#ranked(mended, mended.length, known, fits);
      if (found.length > 0) return { places: found, terms: mended, meant: asMeant(typed, words, mended, known) };
    }
    const fewest = terms.length - Math.floor(terms.length / ONE_MAY_MISS);
    const nearest = terms.map((term) => (known.get(term) ? term : (meantWords(term, known.near(term))[0] ?? term)));
    const part = fewest < terms.length ? await this.#ranked(nearest, fewest, known, fits) : [];
    const changed = nearest.some((term, at) => term !== terms[at]);
    return {
      ...{ places: part, terms: nearest },
      ...(changed && part.length > 0 ? { meant: asMeant(typed, words, nearest, known) } : {}),
    };
  }

  /** All that is known of the words that begin as some others do. */
  async #knownNear(terms: readonly string[]): Promise<KnownWords> {
    const letters = [...new Set(terms.map((term) => term.slice(0, 1)))];
    const lists = await Promise.all(letters.map((letter) => this.#source.words(letter)));
    return new KnownWords(new Map(letters.map((letter, at) => [letter, lists[at] ?? new Map()])));
  }

  /** Places of records that hold at least so many of the terms, best first. The last term may still be typed on. */
  async #ranked(terms: readonly string[], fewest: number, known: KnownWords, fits: Fits): Promise<number[]> {
    const single = [...new Set(terms)];
    const unfinished = terms.at(-1);
    const wanted = single.map((term) => [
      term,
      ...(term === unfinished && term.length > 1 && !known.get(term) ? known.begunWith(term) : []),
    ]);
    const postings = await this.#source.postings([...new Set(wanted.flat())].filter((word) => known.get(word)));
    const lookedUp = wanted.map(([term = '', ...others]) =>
      [term, ...others].flatMap((word): LookedUp[] => {
        const own = postings.get(word);
        return own ? [{ postings: own, weight: word === term ? 1 : prefixWeight(term, word) }] : [];
      }),
    );
    return ranked(this.#source.facts, lookedUp, Math.min(fewest, single.length), fits);
  }
}

/** The words that begin with some letters. */
class KnownWords {
  readonly #byLetter: ReadonlyMap<string, ReadonlyMap<string, IndexedWord>>;
  readonly #further: ReadonlySet<string>;

  constructor(
    byLetter: ReadonlyMap<string, ReadonlyMap<string, IndexedWord>>,
    further: ReadonlySet<string> = new Set(),
  ) {
    this.#byLetter = byLetter;
    this.#further = further;
  }

  /** Those with the same first letter. */
  near(word: string): ReadonlyMap<string, IndexedWord> {
    return this.#byLetter.get(word.slice(0, 1)) ?? new Map();
  }

  get(word: string): IndexedWord | undefined {
    return this.near(word).get(word) ?? (this.#further.has(word) ? {} : undefined);
  }

  /** With some more words, of which only is known that they are there. */
  and(words: Iterable<string>): KnownWords {
    return new KnownWords(this.#byLetter, new Set(words));
  }

  /** Longer words that begin so, by letter. */
  begunWith(start: string): string[] {
    return [...this.near(start).keys()].filter((word) => word.startsWith(start) && word !== start).toSorted();
  }
}

/** The terms with slips mended: first words nobody knows, then one known word at a time, such as `break` for `brake`. */
function* mendings(terms: readonly string[], known: KnownWords): Generator<readonly string[]> {
  const meant = terms.map((term) => meantWords(term, known.near(term)));
  const unknown = terms.map(
    (term, at) => !known.get(term) && !(at === terms.length - 1 && known.begunWith(term).length > 0),
  );
  const base = terms.map((term, at) => (unknown[at] ? (meant[at]?.[0] ?? term) : term));
  if (unknown.some(Boolean)) yield base;
  for (const at of terms.keys()) for (const other of meant[at]?.slice(0, 4) ?? []) yield base.with(at, other);
}

/** What was typed with the mended words in their places. */
function asMeant(typed: string, words: readonly SearchWord[], mended: readonly string[], known: KnownWords): string {
  let text = '';
  let at = 0;
  for (const [index, { term, start, end }] of words.entries()) {
    if (start < at) continue;
    const other = mended[index] ?? term;
    text += typed.slice(at, start);
    text += other === term ? typed.slice(start, end) : (known.get(other)?.written ?? other);
    at = end;
  }
  return (text + typed.slice(at)).replaceAll(/\s+/g, ' ').trim();
}

/** Blank within a group of figures that no line breaks at. */
const NARROW_SPACE = '\u202f';

/**
 * What was typed with figures as English writes them: in a language with a decimal comma `0,5` becomes `0.5`, and the
 * points of `20.000`, which are no decimals there, become blanks. Every offset stays what it was.
 */
function withPoints(typed: string, language: string): string {
  // Asked for only where there is a sign: a browser takes longer to make its first format than to search.
  if (!/[.,]/.test(typed) || decimalSign(language) !== ',') return typed;
  return typed
    .replaceAll(/(?<![\d.,])[1-9]\d{0,2}(?:\.\d{3})+(?!\d|\.\d)/g, (figures) => figures.replaceAll('.', NARROW_SPACE))
    .replaceAll(/(?<=\d),(?=\d)/g, '.');
}
