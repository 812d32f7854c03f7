export const ONES = new Map(
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'
    .split(' ')
    .map((word, value): [string, number] => [word, value]),
);
for (const nought of ['oh', 'nought', 'naught']) ONES.set(nought, 0);
export const TENS = new Map(
  'twenty thirty forty fifty sixty seventy eighty ninety'
    .split(' ')
    .map((word, index): [string, number] => [word, (index + 2) * 10]),
);
TENS.set('fourty', 40);
export const SCALES = new Map([
  ['hundred', 100],
  ['thousand', 1000],
  ['grand', 1000],
  ['million', 1_000_000],
]);
/** Ordinals by which parts are named, beside `half` and `quarter`. */
const ORDINALS: readonly (readonly [string, number])[] = [
  ['third', 3],
  ['fourth', 4],
  ['fifth', 5],
  ['sixth', 6],
  ['seventh', 7],
  ['eighth', 8],
  ['ninth', 9],
  ['tenth', 10],
  ['twelfth', 12],
  ['sixteenth', 16],
  ['twentieth', 20],
  ['fiftieth', 50],
  ['hundredth', 100],
];
export const PARTS = new Map([
  ['half', 2],
  ['halves', 2],
  ['quarter', 4],
  ['quarters', 4],
  ...ORDINALS.flatMap(([word, parts]): [string, number][] => [
    [word, parts],
    [`${word}s`, parts],
  ]),
]);

/** Words before a scale that leave its number open. */
export const VAGUE = new Set(['couple', 'few', 'several', 'many', 'of', 'some', 'odd']);
/** Words between an article and what it counts. */
export const WHOLE = new Set(['full', 'whole', 'complete']);
export const MORE = new Set([...WHOLE, 'further', 'good', 'extra', 'additional', 'solid', 'mere']);

/** Before `one` these say which thing it is; no number begins after them. */
export const THING_BEFORE =
  /^(this|that|which|every|other|another|big|bigger|small|smaller|large|larger|little|old|older|new|newer|long|longer|short|shorter|wide|narrow|thick|thin|heavy|light|inch|millimet(re|er)|mm|centimet(re|er)|met(re|er)|foot|lit(re|er)|volt|amp|watt|ton|pound|tooth|speed|stroke|cylinder|front|back|rear|left|right|inner|outer|top|bottom|upper|lower|first|second|third|next|last|cheap|good|bad)$/;

/** Before `one` these point at a thing. */
export const POINTED_AT = /^(this|that|which|other|another)$/;

/** Units before whose `and a half` the article is left out: `inch and a quarter`. */
export const ONE_OF = new Set(['inch', 'foot', 'turn', 'mil', 'thou', 'litre', 'liter', 'pint', 'hour']);

/** Words a number can begin with. */
export const BEGINNINGS = new Set([
  ...ONES.keys(),
  ...TENS.keys(),
  ...SCALES.keys(),
  ...PARTS.keys(),
  ...ONE_OF,
  ...['point', 'half', 'quarter', 'a', 'an', 'another', 'minus', 'negative'],
]);

/** Of two numbers that are guessed, the larger is at most so many times the smaller. */
const GUESS = 2.5;

/** `seventeen fifty`: too far apart for a guess such as `fifteen twenty`, so hundreds with their rest. */
export function isYearLike(hundreds: number, rest: { value: number }, hyphened: boolean): boolean {
  // `thirty-four eighty`: people guess in round numbers, and this one is not round.
  if (hundreds > 12 && hundreds % 5 !== 0 && rest.value % 10 === 0 && rest.value > hundreds + 10) return true;
  // `seventeen twenty-five`: a quarter of a hundred, and too far off.
  if (hundreds > 12 && hundreds % 5 !== 0 && rest.value % 25 === 0 && rest.value > hundreds + 6) return true;
  return hundreds > 10 && rest.value >= 10 && rest.value > hundreds * GUESS && !hyphened;
}
