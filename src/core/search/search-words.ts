import { type WordForms, wordForms } from './word-forms.ts';

/** One name for several: what is said of any of them is found by all. */
export interface Synonyms {
  readonly say: string;
  readonly also: readonly string[];
}

const WORD = /\d+(?:[.,/]\d+)*|[\p{L}\p{N}]+(?:['’][\p{L}\p{N}]+)*/gu;

/** A word of a text as search compares it, and where it stands. */
export interface SearchWord {
  readonly term: string;
  /** Offsets in the text, half-open. */
  readonly start: number;
  readonly end: number;
}

/** How the words of one shop are compared: its language, its names for things, the words it passes over. */
export class SearchWords {
  readonly #forms: WordForms;
  readonly #skipped: ReadonlySet<string>;
  /** What words come to that were met before; nothing of those that are passed over. */
  readonly #terms = new Map<string, string | undefined>();
  /** By their first term, the longest first. */
  readonly #names = new Map<string, { readonly also: readonly string[]; readonly say: readonly string[] }[]>();

  constructor(language: string, synonyms: readonly Synonyms[] = [], skip: readonly string[] = []) {
    this.#forms = wordForms(language);
    this.#skipped = new Set([...this.#forms.skipped, ...skip.map(plain)]);
    for (const { say, also } of synonyms) {
      const to = this.#bare(say).map(({ term }) => term);
      for (const name of also) {
        const terms = this.#bare(name).map(({ term }) => term);
        const [first] = terms;
        if (first === undefined || to.length === 0) continue;
        const others = [...(this.#names.get(first) ?? []), { also: terms, say: to }];
        this.#names.set(
          first,
          others.toSorted((a, b) => b.also.length - a.also.length),
        );
      }
    }
  }

  /** The words of a text that say something, each by the name the shop uses. A name of several words takes the place of all. */
  of(text: string): SearchWord[] {
    const words = this.#bare(text);
    const found: SearchWord[] = [];
    for (let at = 0; at < words.length; ) {
      const word = words[at];
      if (!word) break;
      const name = this.#names
        .get(word.term)
        ?.find(({ also }) => also.every((term, i) => words[at + i]?.term === term));
      const last = words[at + (name?.also.length ?? 1) - 1] ?? word;
      for (const term of name?.say ?? [word.term]) found.push({ term, start: word.start, end: last.end });
      at += name?.also.length ?? 1;
    }
    return found;
  }

  #bare(text: string): SearchWord[] {
    const found: SearchWord[] = [];
    for (const { 0: word, index } of text.matchAll(WORD)) {
      const term = this.#term(word);
      if (term !== undefined) found.push({ term, start: index, end: index + word.length });
    }
    return found;
  }

  #term(word: string): string | undefined {
    const known = this.#terms.get(word);
    if (known !== undefined || this.#terms.has(word)) return known;
    const bare = plain(word);
    const term = this.#skipped.has(bare) ? undefined : this.#forms.stem(bare);
    this.#terms.set(word, term);
    return term;
  }
}

/** Small letters without accents; a decimal comma is a point. */
export function plain(word: string): string {
  return word
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/['’]s?$/, '')
    .replace(/(?<=\d),(?=\d)/g, '.');
}
