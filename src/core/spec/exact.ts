// Own code on purpose: the fraction library takes a double for the nearest small fraction and rounds halves up.

/** A number without rounding error: a fraction of whole numbers in lowest terms, `den` above zero. */
export interface Exact {
  readonly num: bigint;
  readonly den: bigint;
}

function gcd(a: bigint, b: bigint): bigint {
  let [x, y] = [a < 0n ? -a : a, b];
  while (y > 0n) [x, y] = [y, x % y];
  return x;
}

function lowestTerms(num: bigint, den: bigint): Exact {
  const sign = den < 0n ? -1n : 1n;
  const by = gcd(num, den * sign) || 1n;
  return { num: (num * sign) / by, den: (den * sign) / by };
}

/**
 * A written number without loss; a double counts as the shortest decimal that prints it (0.1 is one tenth).
 *
 * @param written a decimal with or without exponent, or a fraction such as `127/5`
 * @throws RangeError when it is neither
 */
export function exact(written: number | string): Exact {
  const [top = '', bottom] = String(written).split('/');
  if (bottom !== undefined) return divide(exact(top), exact(bottom));
  const match = /^([+-]?)(\d+)(?:\.(\d+))?(?:e([+-]?\d+))?$/i.exec(top);
  if (!match) throw new RangeError(`${written} is not a number that can be written down`);
  const [, sign, whole = '', fraction = '', power = '0'] = match;
  const digits = BigInt(`${sign}${whole}${fraction}`);
  const shift = Number(power) - fraction.length;
  return shift >= 0 ? lowestTerms(digits * 10n ** BigInt(shift), 1n) : lowestTerms(digits, 10n ** BigInt(-shift));
}

export const plus = (a: Exact, b: Exact): Exact => lowestTerms(a.num * b.den + b.num * a.den, a.den * b.den);
export const minus = (a: Exact, b: Exact): Exact => lowestTerms(a.num * b.den - b.num * a.den, a.den * b.den);
export const times = (a: Exact, b: Exact): Exact => lowestTerms(a.num * b.num, a.den * b.den);

/** @throws RangeError when dividing by zero */
export function divide(a: Exact, b: Exact): Exact {
  if (b.num === 0n) throw new RangeError('division by zero');
  return lowestTerms(a.num * b.den, a.den * b.num);
}

/** Negative, zero or positive as a is below, equal to or above b. */
export function compare(a: Exact, b: Exact): number {
  const difference = a.num * b.den - b.num * a.den;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

/** Ten to a whole power, also a negative one. */
export function powerOfTen(power: number): Exact {
  return power >= 0 ? { num: 10n ** BigInt(power), den: 1n } : { num: 1n, den: 10n ** BigInt(-power) };
}

function floorDivide(num: bigint, den: bigint): bigint {
  const quotient = num / den;
  return num % den < 0n ? quotient - 1n : quotient;
}

export type Direction = 'down' | 'up' | 'half-even';

/**
 * The multiple of 10^power next to a value.
 *
 * @param direction `half-even` is SP 811 B.7.1: a tie goes to the even digit
 * Source: NIST SP 811 (2008), B.7.1.
 */
export function roundTo(value: Exact, power: number, direction: Direction): Exact {
  const step = powerOfTen(power);
  const { num, den } = divide(value, step);
  const below = floorDivide(num, den);
  const rest = num - below * den;
  const twice = rest * 2n;
  const up =
    direction === 'up' ? rest > 0n : direction === 'half-even' && (twice > den || (twice === den && below % 2n !== 0n));
  return times({ num: below + (up ? 1n : 0n), den: 1n }, step);
}

/** The exponent of the first figure: 2 for 123, -2 for 0.05; 0 for nought. */
export function magnitude(value: Exact): number {
  const size = value.num < 0n ? -value.num : value.num;
  if (size === 0n) return 0;
  let power = size.toString().length - value.den.toString().length;
  if (compare({ num: size, den: value.den }, powerOfTen(power)) < 0) power--;
  return power;
}

/** A value in decimal figures, with as many places after the point as asked for; further figures are dropped. */
export function decimals(value: Exact, places: number): string {
  const scaled = roundTo(times(value, powerOfTen(places)), 0, 'half-even').num;
  const digits = (scaled < 0n ? -scaled : scaled).toString().padStart(places + 1, '0');
  const sign = scaled < 0n ? '-' : '';
  return places === 0 ? `${sign}${digits}` : `${sign}${digits.slice(0, -places)}.${digits.slice(-places)}`;
}

/** The double nearest to a value, to within the last bit. */
export function toNumber(value: Exact): number {
  return Number(decimals(value, Math.min(400, Math.max(0, 25 - magnitude(value)))));
}
