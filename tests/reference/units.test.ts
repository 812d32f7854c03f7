import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { compare, decimals, exact, magnitude, roundTo, toNumber } from '../../src/core/spec/exact.ts';
import {
  amountIn,
  convert,
  convertAmount,
  findUnit,
  UNITS,
  type Unit,
  unitsCompare,
  unitsOf,
} from '../../src/core/spec/index.ts';
import { published } from '../support/published.ts';
import copied from './units.json' with { type: 'json' };

const reference = published(copied);
const B8 = reference.values['NIST SP 811, 2008, appendix B.8'].factors;
const IMPERIAL = reference.values['UK Units of Measurement Regulations 1995, schedule'].factors;

/** Names of the published table that ours prints otherwise. */
const OTHER_NAME: Readonly<Record<string, string>> = {
  inch: 'in',
  mil: 'thou',
  foot: 'ft',
  mile: 'mi',
  'mile/h': 'mph',
  'US pint': 'US pt',
  'US quart': 'US qt',
  'US gallon': 'US gal',
  'imperial pint': 'imp pt',
  'imperial gallon': 'imp gal',
  'kgf/cm2': 'kgf/cm²',
  cm3: 'cc',
};
const ours = (name: string) => OTHER_NAME[name] ?? name;

function pair(from: string, to: string): [Unit, Unit] | undefined {
  for (const a of UNITS)
    for (const b of UNITS) if (a.kind === b.kind && a.symbol === ours(from) && b.symbol === ours(to)) return [a, b];
  return undefined;
}

function units(from: string, to: string): [Unit, Unit] {
  const found = pair(from, to);
  expect(found, `${from} → ${to} is in the unit table`).toBeDefined();
  return found!;
}

// Fractions follow from the definitions behind the factors.
test.each([...B8, ...IMPERIAL])('$from to $to is exactly $rational', ({ from, to, rational }) => {
  const [a, b] = units(from, to);
  expect(compare(exact(`${a.factor.num}/${a.factor.den}`), times(exact(rational), b))).toBe(0);
});

/** Multiples of the coherent unit in which SP 811 prints a factor. */
const SI: Readonly<Record<string, number>> = { kPa: 1e3, mm: 1e-3, mL: 1e-6, L: 1e-3, g: 1e-3, km: 1e3 };

test.each(B8)('$from is printed as $printed', ({ from, to, printed }) => {
  const [a, b] = units(from, to);
  const [, digits = '', exponent = '0', unit] = /^([\d. ]+?)(?: E([+-]\d+))?(?: (Pa|m3|m|kg))?$/.exec(printed) ?? [];
  const figures = digits.replaceAll(' ', '');
  const own = convert(1, a.kind, a.symbol, b.symbol) * (unit === undefined ? 1 : (SI[to] ?? 1));
  const length = figures.replace('.', '').length;
  expect(Number(own.toPrecision(length))).toBe(Number(`${figures}e${exponent}`));
});

test.each(reference.values['49 CFR 571.116, S5.1 (edition not known)'])('$F °F is $C °C', ({ F, C }) => {
  expect(convert(F, 'temperature', '°F', '°C')).toBe(C);
  expect(convert(C, 'temperature', '°C', '°F')).toBe(F);
});

function times(a: { num: bigint; den: bigint }, unit: Unit) {
  return exact(`${a.num * unit.factor.num}/${a.den * unit.factor.den}`);
}

describe('rounding of NIST SP 811, B.7', () => {
  test.each(reference.values['NIST SP 811, 2008, appendix B.7.1'])(
    '$value to $digits figures is $result',
    ({ value, digits, result }) => {
      const place = magnitude(exact(value)) - digits + 1;
      expect(decimals(roundTo(exact(value), place, 'half-even'), -place)).toBe(result);
    },
  );

  test('36 ft is given as 11.0 m', () => {
    const { value, unit, to, given } = reference.values['NIST SP 811, 2008, appendix B.7.2'];
    const { nominal, place } = convertAmount({ nominal: value, unit }, 'length', to);
    expect(decimals(nominal!, -place)).toBe(given);
  });
});

// mathjs 15 as an independent library of units. It knows torque only as energy, so torques go through their
// dimension; its psi is 6e-11 off, so the bound is 1e-9.
const math = create(all ?? {});
const IN_MATHJS: Readonly<Record<string, string>> = {
  N·m: 'N m',
  lbf·ft: 'lbf ft',
  lbf·in: 'lbf in',
  kgf·m: 'kgf m',
  kgf·cm: 'kgf cm',
  cN·m: 'cN m',
  N: 'N',
  kN: 'kN',
  lbf: 'lbf',
  kgf: 'kgf',
  kPa: 'kPa',
  psi: 'psi',
  bar: 'bar',
  mbar: 'mbar',
  MPa: 'MPa',
  'kgf/cm²': 'kgf/cm^2',
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  µm: 'um',
  in: 'in',
  thou: 'mil',
  ft: 'ft',
  mL: 'ml',
  L: 'l',
  cc: 'cm^3',
  'US fl oz': 'fluidounce',
  g: 'g',
  kg: 'kg',
  mg: 'mg',
  lb: 'lbm',
  oz: 'oz',
  '°C': 'degC',
  '°F': 'degF',
  K: 'K',
  '°': 'deg',
  turn: 'cycle',
  V: 'V',
  mV: 'mV',
  kV: 'kV',
  A: 'A',
  mA: 'mA',
  Ω: 'ohm',
  mΩ: 'mohm',
  kΩ: 'kohm',
  MΩ: 'Mohm',
  Ah: 'A hour',
  mAh: 'mA hour',
  '1/min': 'cycle/minute',
  rpm: 'cycle/minute',
  '1/s': 'cycle/s',
  'L/s': 'l/s',
  'L/min': 'l/minute',
  'mL/min': 'ml/minute',
  'L/h': 'l/hour',
  'm³/h': 'm^3/hour',
  'US gal/min': 'gallon/minute',
  'ft³/min': 'ft^3/minute',
  'ft/min': 'ft/minute',
  'km/h': 'km/h',
  mph: 'mi/h',
  'm/min': 'm/minute',
  'm/s': 'm/s',
  W: 'W',
  kW: 'kW',
  ms: 'ms',
  s: 's',
  min: 'minute',
  h: 'hour',
  day: 'day',
  week: 'week',
  km: 'km',
  mi: 'mi',
};

const pairs = UNITS.filter((unit) => unit.kind !== 'temperature-difference' && IN_MATHJS[unit.symbol]).flatMap((from) =>
  unitsOf(from.kind)
    .filter((to) => IN_MATHJS[to.symbol] && unitsCompare(from.kind, from.symbol, to.symbol))
    .map((to) => ({ from, to })),
);

test('10 000 random conversions agree with a general unit library to 1e-9', () => {
  let compared = 0;
  fc.assert(
    fc.property(fc.constantFrom(...pairs), fc.double({ min: 1e-3, max: 1e6, noNaN: true }), ({ from, to }, value) => {
      const theirs = math.unit(value, IN_MATHJS[from.symbol]!).toNumber(IN_MATHJS[to.symbol]!);
      const mine = convert(value, from.kind, from.symbol, to.symbol);
      compared++;
      // Temperatures near the zero of a scale lose relative sense: compare against the shift, too.
      const size = from.kind === 'temperature' ? Math.abs(theirs) + 500 : Math.abs(theirs);
      return Math.abs(mine - theirs) <= 1e-9 * size;
    }),
    { numRuns: 10_000 },
  );
  expect(compared).toBe(10_000);
});

test('every unit is either known to the oracle or checked by another published value', () => {
  // oz·in, quarts, pints and gallons: factors above. inHg and imperial ounces and quarts follow below.
  const checkedAbove = new Set([...B8, ...IMPERIAL].flatMap(({ from, to }) => [ours(from), ours(to)]));
  const rest = UNITS.filter((unit) => !IN_MATHJS[unit.symbol] && !checkedAbove.has(unit.symbol)).map(
    (unit) => unit.symbol,
  );
  // Ratios, hardness scales and counts convert to nothing.
  const alone = [':1', '%', 'HRC', 'HRB', 'HBW', 'HV', 'Shore A', 'Shore D', 'teeth', 'links'];
  expect(rest.filter((symbol) => !alone.includes(symbol))).toEqual([
    'inHg',
    'imp fl oz',
    'imp qt',
    'imp gal/min',
    'month',
    'year',
  ]);
  expect(convert(1, 'flow', 'imp gal/min', 'L/min')).toBe(4.54609);
  // The imperial gallon is 160 fluid ounces or 4 quarts (UK Units of Measurement Regulations 1995, schedule).
  expect(convert(1, 'volume', 'imp gal', 'imp fl oz')).toBe(160);
  expect(convert(1, 'volume', 'imp gal', 'imp qt')).toBe(4);
  // SP 811, B.8: inch of mercury, conventional, 3.386 389 E+03 Pa; year of 365 days 3.1536 E+07 s.
  expect(convert(1, 'pressure', 'inHg', 'kPa')).toBe(3.386389);
  expect(convert(1, 'time', 'year', 's')).toBe(31_536_000);
  expect(convert(1, 'time', 'year', 'month')).toBe(12);
});

const allPairs = UNITS.flatMap((from) =>
  unitsOf(from.kind)
    .filter((to) => unitsCompare(from.kind, from.symbol, to.symbol))
    .map((to) => ({ from, to })),
);
const decimal = fc
  .tuple(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 0, max: 4 }))
  .map(([n, p]) => Number(`${n}e-${p}`));

test('a converted range is never wider than the one written, over all units', () => {
  fc.assert(
    fc.property(fc.constantFrom(...allPairs), decimal, decimal, ({ from, to }, a, b) => {
      fc.pre(a !== b);
      const [min, max] = [Math.min(a, b), Math.max(a, b)];
      const shown = amountIn({ min, max, unit: from.symbol }, from.kind, to.symbol);
      const exactly = (value: number) => worked(value, from, to);
      return (
        compare(exact(shown.min!), exactly(min)) >= 0 &&
        compare(exact(shown.max!), exactly(max)) <= 0 &&
        shown.min! < shown.max!
      );
    }),
    { numRuns: 3000 },
  );
});

/** The exact converted value, worked out here from the two factors and offsets alone. */
function worked(value: number, from: Unit, to: Unit) {
  const v = exact(value);
  // ((v·f + o) − o') / f', over one denominator.
  const num =
    v.num * from.factor.num * from.offset.den * to.offset.den +
    from.offset.num * v.den * from.factor.den * to.offset.den -
    to.offset.num * v.den * from.factor.den * from.offset.den;
  const den = v.den * from.factor.den * from.offset.den * to.offset.den;
  return exact(`${num * to.factor.den}/${den * to.factor.num}`);
}

test('a nominal value stays inside its converted limits, and at most half a step off', () => {
  fc.assert(
    fc.property(fc.constantFrom(...allPairs), decimal, decimal, decimal, ({ from, to }, a, b, c) => {
      const [min, nominal, max] = [a, b, c].sort((x, y) => x - y);
      fc.pre(min! < max!);
      const shown = amountIn({ min: min!, nominal: nominal!, max: max!, unit: from.symbol }, from.kind, to.symbol);
      return shown.min! <= shown.nominal! && shown.nominal! <= shown.max!;
    }),
    { numRuns: 2000 },
  );
});

// 40 °F is 4.444… °C and 20 s are 0.333… min: figures that never end, so that no place rounds both up and to the nearest.
test.each([
  [{ nominal: 40, min: 40, max: 60, unit: '°F' }, 'temperature', '°C', { nominal: 4.5, min: 4.5, max: 15.5 }],
  [{ nominal: 45, min: 30, max: 45, unit: '°F' }, 'temperature', '°C', { nominal: 7.2, min: -1.1, max: 7.2 }],
  [{ nominal: 20, min: 20, max: 40, unit: 's' }, 'time', 'min', { nominal: 0.34, min: 0.34, max: 0.66 }],
] as const)('a nominal value that is itself a limit stays that limit: %o', (amount, kind, to, shown) => {
  expect(amountIn(amount, kind, to)).toEqual({ ...shown, unit: to });
});

test('a nominal value at a limit is that limit in every unit', () => {
  fc.assert(
    fc.property(fc.constantFrom(...allPairs), decimal, decimal, fc.boolean(), ({ from, to }, a, b, low) => {
      const [min, max] = [Math.min(a, b), Math.max(a, b)];
      fc.pre(min < max);
      const shown = amountIn({ min, nominal: low ? min : max, max, unit: from.symbol }, from.kind, to.symbol);
      return shown.nominal === (low ? shown.min : shown.max) && shown.min! < shown.max!;
    }),
    { numRuns: 2000 },
  );
});

test('limits that contradict each other are refused', () => {
  expect(() => amountIn({ nominal: 3, min: 4, unit: 'm' }, 'length', 'ft')).toThrow(RangeError);
  expect(() => amountIn({ min: 5, max: 4, unit: 'm' }, 'length', 'ft')).toThrow(RangeError);
});

test('there and back again is the same number', () => {
  fc.assert(
    fc.property(fc.constantFrom(...allPairs), decimal, ({ from, to }, value) => {
      const there = convert(value, from.kind, from.symbol, to.symbol);
      const size = from.kind.startsWith('temp') ? value + 500 : value;
      return Math.abs(convert(there, from.kind, to.symbol, from.symbol) - value) <= 1e-12 * size;
    }),
  );
});

test('every unit is found by its own symbol and by each of its spellings', () => {
  for (const unit of UNITS)
    for (const written of [unit.symbol, ...unit.spellings, unit.symbol.toUpperCase()]) {
      // A milliohm in capitals is a megohm.
      if (UNITS.some((other) => other !== unit && other.kind === unit.kind && other.symbol === written)) continue;
      const found = findUnit(written, unit.kind);
      const ambiguous = !found.ok && found.fault === 'unit-ambiguous';
      expect(ambiguous || (found.ok && found.value === unit), `${written} as ${unit.kind}`).toBe(true);
    }
  expect(toNumber(exact('0.1'))).toBe(0.1);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
