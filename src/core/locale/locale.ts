/** What is said in place of an English text; of one that counts, a form for each number category of the language. */
export type Messages = Readonly<Record<string, string | readonly string[]>>;

/** A language, with the way it writes numbers and days, and what it says in place of each English text. */
export interface Locale {
  /** BCP 47 tag, such as `es` or `es-MX`. */
  readonly tag: string;
  /** By the English text. One that is missing is said in English. */
  readonly messages: Messages;
}

/** What the program is written in. */
export const ENGLISH: Locale = { tag: 'en', messages: {} };

/**
 * Scripts written from right to left, by ISO 15924 code.
 *
 * Source: UAX #9 and the Script_Metadata of CLDR (field RTL?) for scripts in use today; from memory.
 */
const RIGHT_TO_LEFT = new Set(['Arab', 'Hebr', 'Thaa', 'Syrc', 'Nkoo', 'Adlm', 'Rohg', 'Samr', 'Mand']);

/** Which way lines of a language run. */
export function directionOf(tag: string): 'ltr' | 'rtl' {
  return RIGHT_TO_LEFT.has(new Intl.Locale(tag).maximize().script ?? '') ? 'rtl' : 'ltr';
}

/** What a language is called in itself, such as `Español`; begun with a capital where its script has any. */
export function ownName(tag: string): string {
  const name = new Intl.DisplayNames([tag], { type: 'language', fallback: 'code' }).of(tag) ?? tag;
  const [first = '', ...rest] = name;
  return first.toLocaleUpperCase(tag) + rest.join('');
}

/** The language that days are written in: of English the kind that the pages are in, day before month. */
export function dateTag({ tag }: Locale): string {
  return tag === 'en' ? 'en-GB' : tag;
}

/** In which language a page is made, and where it lies. */
export interface LanguageOfPage<L extends Locale> {
  readonly locale: L;
  /** The languages of the site, that of the root first. */
  readonly locales: readonly [L, ...L[]];
  /** What stands before the path of a page in its language: nothing at the root, else `es/`. */
  readonly prefix: string;
  /** Path of the page below its prefix. */
  readonly path: string;
}
