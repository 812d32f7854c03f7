import MiniSearch, { type SearchResult } from 'minisearch';
import { findQuantities, type HeardQuantity } from '../heard/index.ts';
import { decimalSign } from '../locale/index.ts';
import { type ExcerptPiece, excerptOf } from './excerpt.ts';
import type { Filter, SearchData, SearchRecord } from './search-data.ts';
import { plain, type SearchWord, SearchWords } from './search-words.ts';
import { meantWords } from './spelling.ts';
import { distanceFrom, isMeant } from './value-match.ts';

export interface Hit {
  /** Of a `SearchRecord`. */
  readonly id: string;
  /** The sentence that holds what was looked for; empty where none does. */
  readonly excerpt: readonly ExcerptPiece[];
}

/** What a search comes to. */
export interface Answer {
  /** Best first. */
  readonly hits: readonly Hit[];
  /** What was typed, with slips mended; absent where it was taken as typed. */
  readonly meant?: string;
  /** A value that was typed and that no spec agrees with, in the words typed. */
  readonly withoutValue?: string;
}

export type Filters = Readonly<Partial<Record<Filter, string>>>;

const BOOST = { title: 8, also: 2, context: 2, text: 1 };
/** Of so many words one may be missing. */
const ONE_MAY_MISS = 3;

/** Search over one shop. Making one reads all records; asking it takes milliseconds. */
export class Search {
  readonly #data: SearchData;
  readonly #words: SearchWords;
  readonly #engine: MiniSearch;
  readonly #records: ReadonlyMap<string, SearchRecord>;
  readonly #order: ReadonlyMap<string, number>;
  /** In how many records each word stands. */
  readonly #uses = new Map<string, number>();
  /** Each word as it is written somewhere. */
  readonly #written = new Map<string, string>();

  constructor(data: SearchData) {
    this.#data = data;
    this.#words = new SearchWords(data.language, data.synonyms, data.skip);
    this.#records = new Map(data.records.map((record) => [record.id, record]));
    this.#order = new Map(data.records.map(({ id }, index) => [id, index]));
    this.#engine = new MiniSearch({
      fields: Object.keys(BOOST),
      tokenize: (text) => text.split(' '),
      processTerm: (term) => term,
    });
    this.#engine.addAll(
      data.records.map(({ id, title, also, context, text }) => {
        const terms = {
          title: this.#terms(title),
          also: this.#terms(also),
          context: this.#terms(context),
          text: this.#terms(text),
        };
        for (const term of new Set(Object.values(terms).flat())) this.#uses.set(term, (this.#uses.get(term) ?? 0) + 1);
        return { id, ...Object.fromEntries(Object.entries(terms).map(([field, list]) => [field, list.join(' ')])) };
      }),
    );
  }

  /** The records that fit what was typed and chosen, best first; all that fit the choice when nothing was typed. */
  find(typed: string, filters: Filters = {}): Answer {
    const quantities = findQuantities(withPoints(typed, this.#data.language));
    const rest = quantities.reduceRight((text, { start, end }) => `${text.slice(0, start)} ${text.slice(end)}`, typed);
    const words = this.#words.of(rest);
    const chosen = (ids: readonly string[]) => ids.filter((id) => this.#fits(id, filters));
    if (quantities.length === 0 && words.length === 0)
      return /\S/.test(typed) ? { hits: [] } : { hits: this.#hits(chosen([...this.#records.keys()]), []) };
    if (quantities.length === 0) return this.#byWords(rest, words, chosen);
    const valued = chosen(this.#byValue(quantities));
    const values = quantities.map(({ start, end }) => typed.slice(start, end)).join(', ');
    if (words.length === 0) return { hits: this.#hits(valued, []), ...(valued.length ? {} : { withoutValue: values }) };
    const within = this.#byWords(rest, words, (ids) => ids.filter((id) => valued.includes(id)));
    if (within.hits.length > 0) return within;
    return { ...this.#byWords(rest, words, chosen), withoutValue: values };
  }

  #terms(text: string): string[] {
    return this.#words.of(text).map(({ term, start, end }) => {
      const written = text.slice(start, end).toLowerCase();
      // A name of another word stands for it, and is not how it is written.
      if (!this.#written.has(term) && plain(written).startsWith(term.slice(0, 3))) this.#written.set(term, written);
      return term;
    });
  }

  /** What was typed with the mended words in their places. */
  #asMeant(typed: string, words: readonly SearchWord[], mended: readonly string[]): string {
    let text = '';
    let at = 0;
    for (const [index, { term, start, end }] of words.entries()) {
      if (start < at) continue;
      const other = mended[index] ?? term;
      text += typed.slice(at, start) + (other === term ? typed.slice(start, end) : (this.#written.get(other) ?? other));
      at = end;
    }
    return (text + typed.slice(at)).replaceAll(/\s+/g, ' ').trim();
  }

  #fits(id: string, filters: Filters): boolean {
    const own = this.#records.get(id)?.filters;
    return Object.entries(filters).every(([name, value]) => own?.[name as Filter]?.includes(value));
  }

  /** Specs with a value that agrees, the nearest first, then the steps that cite one. */
  #byValue(quantities: readonly HeardQuantity[]): string[] {
    return this.#data.records
      .filter(({ values }) => quantities.every((heard) => values.some((part) => isMeant(heard, part))))
      .map(({ id, values }) => {
        const far = quantities.map((heard) => Math.min(...values.map((part) => distanceFrom(heard, part))));
        return { id, far: far.reduce((sum, each) => sum + each, 0), cites: id.startsWith('step ') ? 1 : 0 };
      })
      .toSorted((a, b) => a.cites - b.cites || a.far - b.far || this.#place(a.id) - this.#place(b.id))
      .map(({ id }) => id);
  }

  #byWords(typed: string, words: readonly SearchWord[], chosen: (ids: readonly string[]) => string[]): Answer {
    const terms = words.map(({ term }) => term);
    const unfinished = terms.length - 1;
    const whole = chosen(this.#ranked(terms, unfinished, terms.length));
    if (whole.length > 0) return { hits: this.#hits(whole, terms) };
    for (const mended of this.#mended(terms, unfinished)) {
      const found = chosen(this.#ranked(mended, unfinished, mended.length));
      if (found.length > 0) return { hits: this.#hits(found, mended), meant: this.#asMeant(typed, words, mended) };
    }
    const fewest = terms.length - Math.floor(terms.length / ONE_MAY_MISS);
    const known = terms.map((term) => (this.#isKnown(term) ? term : (meantWords(term, this.#uses)[0] ?? term)));
    const part = fewest < terms.length ? chosen(this.#ranked(known, unfinished, fewest)) : [];
    const changed = known.some((term, at) => term !== terms[at]);
    return {
      hits: this.#hits(part, known),
      ...(changed && part.length > 0 ? { meant: this.#asMeant(typed, words, known) } : {}),
    };
  }

  #isKnown(term: string): boolean {
    return this.#uses.has(term);
  }

  /** Ids of records that hold at least so many of the terms, best first. The last term may still be typed on. */
  #ranked(terms: readonly string[], unfinished: number, fewest: number): string[] {
    const single = [...new Set(terms)];
    const held = (result: SearchResult) => new Set(result.queryTerms).size;
    const least = Math.min(fewest, single.length);
    return this.#engine
      .search(single.join(' '), {
        boost: BOOST,
        combineWith: 'OR',
        prefix: (term) => term === terms[unfinished] && term.length > 1 && !this.#isKnown(term),
      })
      .filter((result) => held(result) >= least)
      .toSorted((a, b) => held(b) - held(a) || b.score - a.score || this.#place(a.id) - this.#place(b.id))
      .map(({ id }) => String(id));
  }

  /** The terms with slips mended: first words nobody knows, then one known word at a time, such as `break` for `brake`. */
  *#mended(terms: readonly string[], unfinished: number): Generator<readonly string[]> {
    const unknown = terms.map((term, at) => !this.#isKnown(term) && !(at === unfinished && this.#begins(term)));
    const base = terms.map((term, at) => (unknown[at] ? (meantWords(term, this.#uses)[0] ?? term) : term));
    if (unknown.some(Boolean)) yield base;
    for (const [at, term] of terms.entries())
      for (const other of meantWords(term, this.#uses).slice(0, 4)) yield base.with(at, other);
  }

  #begins(term: string): boolean {
    return [...this.#uses.keys()].some((known) => known.startsWith(term));
  }

  #place(id: unknown): number {
    return this.#order.get(String(id)) ?? 0;
  }

  #hits(ids: readonly string[], terms: readonly string[]): Hit[] {
    const wanted = new Set(terms);
    return ids.map((id) => ({
      id,
      excerpt: wanted.size
        ? excerptOf(this.#records.get(id)?.text ?? '', wanted, this.#words, this.#data.language)
        : [],
    }));
  }
}

/** Blank within a group of figures that no line breaks at. */
const NARROW_SPACE = '\u202f';

/**
 * What was typed with figures as English writes them: in a language with a decimal comma `0,5` becomes `0.5`, and the
 * points of `20.000`, which are no decimals there, become blanks. Every offset stays what it was.
 */
function withPoints(typed: string, language: string): string {
  if (decimalSign(language) !== ',') return typed;
  return typed
    .replaceAll(/(?<![\d.,])[1-9]\d{0,2}(?:\.\d{3})+(?!\d|\.\d)/g, (figures) => figures.replaceAll('.', NARROW_SPACE))
    .replaceAll(/(?<=\d),(?=\d)/g, '.');
}
