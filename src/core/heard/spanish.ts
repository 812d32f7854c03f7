import type { SimpleKind } from '../spec/index.ts';
import { figuresIn } from './figures.ts';
import { kindsOfSpanish } from './spanish-units.ts';

/** A measure in a Spanish text. */
export interface SpanishMeasure {
  /** Offsets in the text, half-open. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
  readonly kind: SimpleKind;
  /** Each number in it, in every way it may be read. */
  readonly numbers: readonly (readonly number[])[];
}

const ONES = 'cero uno dos tres cuatro cinco seis siete ocho nueve'.split(' ');
const TEENS = 'diez once doce trece catorce quince dieciséis diecisiete dieciocho diecinueve'.split(' ');
const TWENTIES =
  'veinte veintiuno veintidós veintitrés veinticuatro veinticinco veintiséis veintisiete veintiocho veintinueve'.split(
    ' ',
  );
const TENS = 'treinta cuarenta cincuenta sesenta setenta ochenta noventa'.split(' ');
const HUNDREDS =
  'doscientos trescientos cuatrocientos quinientos seiscientos setecientos ochocientos novecientos'.split(' ');

/** Number words by what they add. */
const WORDS: ReadonlyMap<string, number> = new Map([
  ...ONES.map((word, value): [string, number] => [plain(word), value]),
  ...TEENS.map((word, value): [string, number] => [plain(word), 10 + value]),
  ...TWENTIES.map((word, value): [string, number] => [plain(word), 20 + value]),
  ...TENS.map((word, value): [string, number] => [plain(word), 30 + 10 * value]),
  ...HUNDREDS.map((word, value): [string, number] => [plain(word), 200 + 100 * value]),
  ['cien', 100],
  ['ciento', 100],
  ['veintiun', 21],
]);
const NUMBER_WORD = [...WORDS.keys()].toSorted((a, b) => b.length - a.length).join('|');
const SPELLED = `(?:${NUMBER_WORD})(?:(?: y | )(?:${NUMBER_WORD}))*`;
const PART = '(?:medio|media|(?:un|tres) cuartos? de)';
const NUMBER = `(?:\\d+(?:[.,]\\d+| \\d{3}(?!\\d))*|${PART}|${SPELLED})`;
const NUMBERS = new RegExp(NUMBER, 'gu');
/** A measure: one number, or several joined as a range or a tolerance, and the unit behind the last. */
const MEASURE = new RegExp(
  `(?<![\\p{L}\\d.,])(${NUMBER}(?: (?:a|o|y|mas menos|mas o menos|±|-|–) ${NUMBER})*) ?(${kindsOfSpanish.pattern})(?!\\p{L})`,
  'gu',
);

/**
 * The measures in a Spanish text: a number in figures or words, and a unit in words or by its sign. It does not judge
 * limits: what is found is held against the numbers of the text it translates.
 */
export function measuresInSpanish(text: string): SpanishMeasure[] {
  return [...plain(text).matchAll(MEASURE)].map((found) => ({
    start: found.index,
    end: found.index + found[0].length,
    text: text.slice(found.index, found.index + found[0].length),
    kind: kindsOfSpanish.kindOf(found[2] ?? ''),
    numbers: [...(found[1] ?? '').matchAll(NUMBERS)].map(([number]) => numberOf(number)),
  }));
}

/** @param language BCP 47 tag */
export function isSpanish(language: string): boolean {
  return /^es\b/.test(language);
}

/** Small letters without accents, as long as the text: each letter keeps its place. */
function plain(text: string): string {
  return [...text]
    .map((sign) => {
      const [base = sign] = sign.normalize('NFD').toLowerCase();
      return sign.length === base.length ? base : sign;
    })
    .join('')
    .replaceAll(/\s/g, ' ');
}

function numberOf(written: string): number[] {
  if (/^\d/.test(written)) return figuresIn(written).flat();
  if (/^medi[oa]$/.test(written)) return [0.5];
  if (written.includes('cuarto')) return [written.startsWith('tres') ? 0.75 : 0.25];
  return [written.split(/ y | /).reduce((sum, word) => sum + (WORDS.get(word) ?? 0), 0)];
}
