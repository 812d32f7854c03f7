import { ENGLISH, type Locale } from './locale.ts';
import { decimalSign } from './numbers.ts';

/** What stands in the place of `{name}` in a text. */
export type Values = Readonly<Record<string, string | number>>;

/** Says the texts of the program in one language. */
export interface Wording {
  /** A text, by its English; what stands in braces is filled in, and stays as it is where no value is given. */
  t(english: string, values?: Values): string;
  /**
   * A text that counts, in the form its language has for the number (`Intl.PluralRules`). `{n}` is the count.
   *
   * @param count what decides the form
   */
  plural(count: number, one: string, other: string, values?: Values): string;
}

/** Marks an English text that is said elsewhere, by `t` of a name, so that it is listed for translators. */
export function english<Text extends string>(text: Text): Text {
  return text;
}

const worded = new WeakMap<Locale, Wording>();

/** The wording of a language; of English where none is named. */
export function wording(locale: Locale = ENGLISH): Wording {
  const known = worded.get(locale);
  if (known) return known;
  const { tag, messages } = locale;
  const say = (text: string, values?: Values) => fillIn(text, values, tag);
  const made: Wording = {
    t(english, values) {
      const message = messages[english];
      return say(typeof message === 'string' && message !== '' ? message : english, values);
    },
    plural(count, one, other, values) {
      const forms = messages[one];
      const own = Array.isArray(forms) ? forms[formOf(rulesOf(tag), count, forms.length)] : undefined;
      // An English text counts by English rules.
      return say(own || (count === 1 ? one : other), { n: count, ...values });
    },
  };
  worded.set(locale, made);
  return made;
}

const rules = new Map<string, Intl.PluralRules>();

/** Made where a number is told in another language than English: a page that tells none starts sooner. */
function rulesOf(tag: string): Intl.PluralRules {
  const known = rules.get(tag) ?? new Intl.PluralRules(tag);
  rules.set(tag, known);
  return known;
}

/**
 * Which form of a message a number takes: gettext numbers the forms in the order of CLDR's categories, and has none for
 * those that only fractions or millions take.
 */
function formOf(own: Intl.PluralRules, count: number, forms: number): number {
  const inOrder = ['zero', 'one', 'two', 'few', 'many', 'other'].filter((category) =>
    own.resolvedOptions().pluralCategories.some((each) => each === category),
  );
  return Math.min(inOrder.indexOf(own.select(count)), forms - 1);
}

const PLACE = /\{(\w+)\}/g;

/** The names in braces of a text, in alphabetical order. */
export function placesIn(text: string): string[] {
  return [...text.matchAll(PLACE)].map(([, name = '']) => name).toSorted();
}

/** A text cut at what stands in braces: words, name, words, name, … words. */
export function cutAtPlaces(text: string): string[] {
  return text.split(PLACE);
}

function fillIn(text: string, values: Values | undefined, tag: string): string {
  if (!values) return text;
  return text.replace(PLACE, (whole, name: string) => {
    const value = values[name];
    return value === undefined ? whole : typeof value === 'number' ? numberText(value, tag) : value;
  });
}

/** A number as a language writes it: only its decimal sign is its own. */
function numberText(value: number, tag: string): string {
  return String(value).replace('.', () => decimalSign(tag));
}
