import { stemmer as spanish } from '@orama/stemmers/spanish';
import { stemmer as english } from 'stemmer';

/** What search knows of a language. */
export interface WordForms {
  /** The part of a word that its forms share: small letters without accents, in and out. */
  readonly stem: (word: string) => string;
  /** Words of questions and sentences that say nothing of what is looked for, without accents. */
  readonly skipped: ReadonlySet<string>;
}

const words = (text: string): ReadonlySet<string> => new Set(text.split(/\s+/));

/** Endings by Porter (1980) for English, by the Snowball stemmer for Spanish. */
const KNOWN: Readonly<Record<string, WordForms>> = {
  en: {
    stem: english,
    skipped: words(
      `a again an and are at be by can could did do does for from get go got has have how i if in is it its long many me much must my need
needs of off on or our out own please put should so tell than that the their them then there these they this those to
up use used using want was we what whats when where which who why will with would you your`,
    ),
  },
  es: {
    stem: spanish,
    skipped: words(
      `a al ante aqui cada como con cual cuales cuando cuanta cuantas cuanto cuantos da de debe debo del desde donde e el ella en
entre era es esa ese eso esta estan este esto estos fue ha hace hacer hago hasta hay la las le lleva llevan lo los mas me mi mis muy
ni no nos o para pero poner pongo por porque puede puedo que quien quiero se sea ser si sin sobre son su sus tan tengo tiene
tienen tu tus u un una uno unos usa usar usted va y ya yo`,
    ),
  },
};

const UNKNOWN: WordForms = { stem: (word) => word, skipped: new Set() };

/** What search knows of the language of a BCP 47 tag; of one it does not know, words are compared as they stand. */
export function wordForms(tag: string): WordForms {
  return KNOWN[new Intl.Locale(tag).language] ?? UNKNOWN;
}
