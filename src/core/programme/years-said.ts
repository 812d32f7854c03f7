import type { HeardQuantity } from '../heard/index.ts';

/** Model years, both included; open to a side where nothing was said of it. */
export interface YearsSaid {
  readonly from: number;
  readonly to: number;
}

const YEAR = '((?:18|19|20)\\d\\d)';
const ANY_YEAR = new RegExp(`\\b${YEAR}\\b`);
const BETWEEN = new RegExp(`\\bbetween ${YEAR} $`, 'i');
/** Ways to say years, with what each means. */
const WAYS: readonly (readonly [RegExp, (...years: readonly number[]) => YearsSaid])[] = [
  [new RegExp(`${YEAR} ?(?:to|until|through|till|-|–) ?${YEAR}`, 'giu'), (from = 0, to = 0) => ({ from, to })],
  [new RegExp(`\\bbetween ${YEAR} and ${YEAR}`, 'giu'), (from = 0, to = 0) => ({ from, to })],
  [new RegExp(`\\b(?:from|since|as of) ${YEAR}`, 'giu'), (from = 0) => ({ from, to: Infinity })],
  [new RegExp(`${YEAR} (?:on|onwards?|and (?:later|newer|up))\\b`, 'giu'), (from = 0) => ({ from, to: Infinity })],
  [new RegExp(`\\bafter ${YEAR}`, 'giu'), (year = 0) => ({ from: year + 1, to: Infinity })],
  [new RegExp(`\\b(?:up to|until|till|through) ${YEAR}`, 'giu'), (to = 0) => ({ from: -Infinity, to })],
  [new RegExp(`${YEAR} and (?:earlier|older|before)\\b`, 'giu'), (to = 0) => ({ from: -Infinity, to })],
  [new RegExp(`\\bbefore ${YEAR}`, 'giu'), (year = 0) => ({ from: -Infinity, to: year - 1 })],
];
/** What parts a sentence into what is said of one thing and of the next. */
const PARTS = /[,;.?!\n]|\b(?:and|but|then)\b(?! (?:later|newer|up|earlier|older|before))/g;

/**
 * The years that a value is said for: "sixteen newton metres up to 2019, nineteen from 2020". Only where the words
 * between two commas name one value and one span of years; who says it less plainly may mean another value.
 */
export function yearsSaid(text: string, heard: HeardQuantity, all: readonly HeardQuantity[]): YearsSaid | undefined {
  // Figures and tolerances hold commas and "and" of their own.
  const cuts = [...text.matchAll(PARTS)].flatMap(({ index, 0: mark }) =>
    all.some(({ start, end }) => index >= start && index < end) || betweenYears(text, index)
      ? []
      : [[index, index + mark.length] as const],
  );
  const from = Math.max(0, ...cuts.flatMap(([, end]) => (end <= heard.start ? [end] : [])));
  const to = Math.min(text.length, ...cuts.flatMap(([start]) => (start >= heard.end ? [start] : [])));
  if (all.some((other) => other !== heard && other.start < to && other.end > from)) return undefined;
  const clause = text.slice(from, to);
  if (!ANY_YEAR.test(clause)) return undefined;
  for (const [way, meant] of WAYS) {
    const [found, more] = [...clause.matchAll(way)];
    if (more) return undefined;
    if (found) return meant(...found.slice(1).map(Number));
  }
  return undefined;
}

/** True for the "and" of "between 2016 and 2019". */
function betweenYears(text: string, index: number): boolean {
  return BETWEEN.test(text.slice(Math.max(0, index - 14), index));
}
