import { exact, plus, times, toNumber, type Unit, unitOf } from '../spec/index.ts';
import { countsNothing } from './no-noun.ts';
import type { Phrase } from './number-and-unit.ts';
import type { NumberRead } from './number-read.ts';
import type { Talk } from './talk.ts';
import { wordAt } from './tokens.ts';
import { unitHeard } from './unit-spoken.ts';

/** Units said in two parts, with how many of the small one make a large one. Source: NIST Handbook 44, App. C. */
/** `four metres twenty`. */
const CENTIMETRES = 100;
const PAIRS: readonly { large: RegExp; small: RegExp; of: number; unit: Unit }[] = [
  { large: /^(lbs?|pounds?)$/, small: /^(oz|ounces?)$/, of: 16, unit: unitOf('mass', 'lb') },
  { large: /^(ft|foot|feet|′|')$/, small: /^(in|inch|inches|″|")$/, of: 12, unit: unitOf('length', 'ft') },
  { large: /^pints?$/, small: /^(oz|ounces?)$/, of: 16, unit: unitOf('volume', 'US pt') },
  { large: /^quarts?$/, small: /^(oz|ounces?)$/, of: 32, unit: unitOf('volume', 'US qt') },
  { large: /^(hours?|hrs?)$/, small: /^(minutes?|mins?)$/, of: 60, unit: unitOf('time', 'h') },
  { large: /^(minutes?|mins?)$/, small: /^(seconds?|secs?)$/, of: 60, unit: unitOf('time', 'min') },
];

/** `9 lb 4 oz`, `five feet three inches`, `eight foot two`: one value, in the large unit. */
export function inTwoUnits({ pieces, numbers }: Talk, low: NumberRead): Phrase | undefined {
  const word = (at: number) => wordAt(pieces, at);
  const metres = /^met(re|er)s?$/.test(word(low.to)) ? numbers.at(low.to + 1) : undefined;
  // `a metre two` is one point two.
  const tenths = low.article && (metres?.value ?? 0) < 10;
  if (metres && !metres.figures && (tenths || metres.value >= 10) && metres.value < CENTIMETRES) {
    const value = toNumber(plus(exact(low.value), times(exact(metres.value), exact(tenths ? '1/10' : '1/100'))));
    if (Number.isInteger(metres.value) && countsNothing(pieces, metres.to))
      return { low: { ...low, value }, unit: unitHeard(unitOf('length', 'm'), metres.to, true), to: metres.to };
  }
  const inThousands = kAsPoint({ pieces, numbers }, low);
  if (inThousands) return inThousands;
  const pair = PAIRS.find(({ large }) => large.test(word(low.to)));
  if (!pair || low.article || !Number.isInteger(low.value)) return undefined;
  const next = low.to + (word(low.to + 1) === 'and' ? 2 : 1);
  const part = numbers.at(next);
  if (!part || part.article || part.value < 1 || part.value >= pair.of) return undefined;
  const named = pair.small.test(word(part.to));
  // `eight foot two`, `six foot two long` end there; `two feet six people` does not.
  const ends = countsNothing(pieces, part.to) || pieces[part.to]?.lower === 'by';
  if (!named && !(ends && /^(foot|ft)$/.test(word(low.to)))) return undefined;
  const value = toNumber(plus(exact(low.value), times(exact(part.value), exact(`1/${pair.of}`))));
  const to = part.to + (named ? 1 : 0);
  return { low: { ...low, value }, unit: unitHeard(pair.unit, to, false), to };
}

/** `four K seven`: the letter stands for the point, as it is printed on a resistor. Source: IEC 60062, 4. */
function kAsPoint({ pieces, numbers }: Pick<Talk, 'pieces' | 'numbers'>, low: NumberRead): Phrase | undefined {
  if (pieces[low.to]?.text !== 'K' || low.article || !Number.isInteger(low.value)) return undefined;
  let digits = '';
  let to = low.to + 1;
  for (let part = numbers.at(to); part && digits.length < 3; part = numbers.at(to)) {
    if (part.figures || part.article || part.value < 1 || part.value > 99 || !Number.isInteger(part.value)) break;
    digits += String(part.value);
    to = part.to;
  }
  if (digits === '' || pieces[to]?.lower === 'point') return undefined;
  const value = Number(`${low.value}.${digits}`);
  return { low: { ...low, value }, unit: unitHeard(unitOf('resistance', 'kΩ'), to, true), to };
}
