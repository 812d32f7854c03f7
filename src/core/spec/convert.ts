import {
  compare,
  divide,
  type Exact,
  exact,
  magnitude,
  minus,
  plus,
  powerOfTen,
  roundTo,
  times,
  toNumber,
} from './exact.ts';
import { type Amount, type SimpleKind, unitsCompare } from './kinds.ts';
import { type Unit, unitOf } from './units.ts';

/** A value in another unit of its kind, without rounding. Temperatures move by their offset. */
export function convertExactly(value: Exact, from: Unit, to: Unit): Exact {
  return divide(minus(plus(times(value, from.factor), from.offset), to.offset), to.factor);
}

/**
 * A number in another unit of its kind.
 *
 * @param from, to symbols of the unit table
 * @returns the double nearest to the exact value
 * @throws RangeError when a symbol is none of the kind's, or the two are scales that do not compare (`unitsCompare`)
 * Source: NIST SP 811 (2008), B.8.
 */
export function convert(value: number, kind: SimpleKind, from: string, to: string): number {
  if (!unitsCompare(kind, from, to)) throw new RangeError(`${from} does not convert to ${to}`);
  return toNumber(convertExactly(exact(value), unitOf(kind, from), unitOf(kind, to)));
}

/**
 * The place of the last figure that counts in a number, as a power of ten: 0 for 98, -1 for 0.7.
 * Noughts that end a whole number count up to its third figure: 6 000 is known to 10, 10 000 to 100.
 * Source: that last rule is common practice; SP 811 leaves such noughts open.
 */
export function lastFigure(value: number): number {
  const { num, den } = exact(value);
  let places = 0;
  while ((num * 10n ** BigInt(places)) % den !== 0n) places++;
  if (places > 0) return -places;
  const figures = num.toString();
  const noughts = figures.length - figures.replace(/0+$/, '').length;
  return Math.min(noughts, Math.max(0, magnitude(exact(value)) - 2));
}

/** What is known of an amount, exactly, in some unit. */
export interface ExactAmount {
  readonly nominal?: Exact;
  readonly min?: Exact;
  readonly max?: Exact;
}

/** An amount converted: its values are whole multiples of 10^`place`. */
export interface Converted extends ExactAmount {
  readonly unit: Unit;
  readonly place: number;
  /** False in the unit it was written in: then every figure stands as written. */
  readonly rounded: boolean;
  /** True where the nominal value came out even: rounding took nothing from it. */
  readonly even: boolean;
}

/** The limits and nominal of an amount, exactly; a limit equal to both others is one value, not a range. */
export function exactly({ nominal, min, max }: Amount): ExactAmount {
  if (min !== undefined && min === max) return { nominal: exact(nominal ?? min) };
  return {
    ...(nominal === undefined ? {} : { nominal: exact(nominal) }),
    ...(min === undefined ? {} : { min: exact(min) }),
    ...(max === undefined ? {} : { max: exact(max) }),
  };
}

const ONE = exact(1);

/**
 * An amount in another unit of its kind, never wider than it was: a minimum is rounded up, a maximum down, a nominal
 * value to the nearest, and one that is itself a limit stays that limit. As many figures stay as keep the rounding
 * error within that of the figures written; more only where the range would close or lose its nominal value.
 *
 * @param by what else the values are multiplied by; above zero, and one for temperatures
 * @throws RangeError when the nominal value does not fit its limits, or a symbol is none of the kind's
 * Source: NIST SP 811 (2008), B.7: 36 ft is 11.0 m, not 11 m.
 */
export function convertAmount(amount: Amount, kind: SimpleKind, symbol: string, by: Exact = ONE): Converted {
  const [from, to] = [unitOf(kind, amount.unit), unitOf(kind, symbol)];
  const written = [amount.nominal, amount.min, amount.max].filter((value) => value !== undefined);
  const finest = Math.min(...written.map(lastFigure));
  const unchanged = from === to && compare(by, ONE) === 0;
  if (unchanged) return { ...exactly(amount), unit: to, place: finest, rounded: false, even: false };
  const { nominal, min, max } = exactly(amount);
  const ratio = times(divide(from.factor, to.factor), by);
  const byFigures = magnitude(times(ratio, powerOfTen(finest)));
  // Nobody rides or drives by tenths of a mile.
  const whole = kind === 'distance' && written.every((value) => value >= 10);
  // Values that differ lie at least one last figure apart, so that two places more keep any two of them apart.
  for (let place = whole ? Math.max(0, byFigures) : byFigures; place >= byFigures - 2; place--) {
    const into = (value: Exact | undefined, direction: 'up' | 'down' | 'half-even') =>
      value && roundTo(convertExactly(times(value, by), from, to), place, direction);
    const [low, high] = [into(min, 'up'), into(max, 'down')];
    const middle = same(nominal, min) ? low : same(nominal, max) ? high : into(nominal, 'half-even');
    const closed = low && high && compare(low, high) >= 0;
    const onLow = low && middle && !same(nominal, min) && compare(middle, low) <= 0;
    const onHigh = high && middle && !same(nominal, max) && compare(middle, high) >= 0;
    if (closed || onLow || onHigh) continue;
    return {
      ...(middle ? { nominal: middle } : {}),
      ...(low ? { min: low } : {}),
      ...(high ? { max: high } : {}),
      unit: to,
      place,
      rounded: true,
      even: compare(by, ONE) === 0 && same(middle, nominal && convertExactly(times(nominal, by), from, to)),
    };
  }
  throw new RangeError('the nominal value does not fit its limits');
}

function same(a: Exact | undefined, b: Exact | undefined): boolean {
  return a !== undefined && b !== undefined && compare(a, b) === 0;
}

/**
 * An amount in another unit as plain numbers, rounded inward like `convertAmount`.
 *
 * @throws RangeError when a symbol is none of the kind's
 */
export function amountIn(amount: Amount, kind: SimpleKind, symbol: string): Amount {
  const { nominal, min, max, unit } = convertAmount(amount, kind, symbol);
  return {
    ...(nominal ? { nominal: toNumber(nominal) } : {}),
    ...(min ? { min: toNumber(min) } : {}),
    ...(max ? { max: toNumber(max) } : {}),
    unit: unit.symbol,
  };
}
