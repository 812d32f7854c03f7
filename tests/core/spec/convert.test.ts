import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exact } from '../../../src/core/spec/exact.ts';
import { type Amount, amountIn, convert, convertAmount, lastFigure } from '../../../src/core/spec/index.ts';

// Exact factors: 1 lbf·in = 0.112 984 829… N·m, 1 in = 25.4 mm, 1 lbf·ft = 1.355 817 9… N·m (NIST SP 811, 2008, B.8).

test.each([
  [98, 0],
  [20, 0],
  [100, 0],
  [999, 0],
  [1001, 0],
  [1010, 1],
  [1000, 1],
  [6000, 1],
  [-6000, 1],
  [10_000, 2],
  [10_100, 2],
  [10_110, 1],
  [5_200_000, 4],
  [0, 0],
  [0.7, -1],
  [1.25, -2],
  [-1.25, -2],
  [100.5, -1],
])('the last figure of %d that counts stands at ten to the power of %d', (value, place) =>
  expect(lastFigure(value)).toBe(place),
);

describe('in the unit it is written in, every figure stands', () => {
  const same = (amount: Omit<Amount, 'unit'>) => convertAmount({ ...amount, unit: 'N·m' }, 'torque', 'N·m');

  test('and nothing is rounded', () => {
    expect(same({ nominal: 98, min: 93, max: 103 })).toMatchObject({
      nominal: exact(98),
      min: exact(93),
      max: exact(103),
      place: 0,
      rounded: false,
      even: false,
    });
    expect(same({ min: 0.25, max: 6000 })).toMatchObject({ min: exact(0.25), max: exact(6000), place: -2 });
  });

  test('also where it contradicts itself, which the check tells', () =>
    expect(same({ min: 5, max: 4 })).toMatchObject({ min: exact(5), max: exact(4) }));

  test('a range of one value is that value', () => {
    expect(amountIn({ min: 5, max: 5, unit: 'N·m' }, 'torque', 'N·m')).toEqual({ nominal: 5, unit: 'N·m' });
    expect(amountIn({ nominal: 5, min: 5, max: 5, unit: 'N·m' }, 'torque', 'N·m')).toEqual({ nominal: 5, unit: 'N·m' });
    expect(amountIn({ max: 5, unit: 'N·m' }, 'torque', 'N·m')).toEqual({ max: 5, unit: 'N·m' });
    expect(amountIn({ min: 5, unit: 'N·m' }, 'torque', 'N·m')).toEqual({ min: 5, unit: 'N·m' });
  });

  test('a multiple of it is another value', () => {
    const shorter = convertAmount({ nominal: 98, min: 93, max: 103, unit: 'N·m' }, 'torque', 'N·m', exact('4/5'));
    expect(shorter).toMatchObject({
      nominal: exact('392/5'),
      min: exact('372/5'),
      max: exact('412/5'),
      place: -1,
      rounded: true,
    });
  });
});

test.each<[Amount, string, Amount]>([
  // 97.6 N·m: a nominal value to the nearest, a minimum up, a maximum down.
  [{ nominal: 72, unit: 'lbf·ft' }, 'N·m', { nominal: 98, unit: 'N·m' }],
  [{ min: 72, unit: 'lbf·ft' }, 'N·m', { min: 98, unit: 'N·m' }],
  [{ max: 72, unit: 'lbf·ft' }, 'N·m', { max: 97, unit: 'N·m' }],
  [{ min: 72, max: 72, unit: 'lbf·ft' }, 'N·m', { nominal: 98, unit: 'N·m' }],
  // 2.260 to 2.373 N·m would be 2.3 to 2.3.
  [{ min: 20, max: 21, unit: 'lbf·in' }, 'N·m', { min: 2.26, max: 2.37, unit: 'N·m' }],
  // 2.034 and 2.147 would both be 2.1.
  [{ min: 18, nominal: 19, max: 30, unit: 'lbf·in' }, 'N·m', { min: 2.04, nominal: 2.15, max: 3.38, unit: 'N·m' }],
  [{ min: 18, nominal: 19, unit: 'lbf·in' }, 'N·m', { min: 2.04, nominal: 2.15, unit: 'N·m' }],
  // 2.373 and 2.486 would both be 2.4.
  [{ min: 10, nominal: 21, max: 22, unit: 'lbf·in' }, 'N·m', { min: 1.13, nominal: 2.37, max: 2.48, unit: 'N·m' }],
  [{ nominal: 21, max: 22, unit: 'lbf·in' }, 'N·m', { nominal: 2.37, max: 2.48, unit: 'N·m' }],
  // 1.130, 2.260 and 3.390 stay apart.
  [{ min: 10, nominal: 20, max: 30, unit: 'lbf·in' }, 'N·m', { min: 1.2, nominal: 2.3, max: 3.3, unit: 'N·m' }],
  // A nominal value that is a limit moves with it.
  [{ min: 72, nominal: 72, max: 80, unit: 'lbf·ft' }, 'N·m', { min: 98, nominal: 98, max: 108, unit: 'N·m' }],
  [{ min: 60, nominal: 72, max: 72, unit: 'lbf·ft' }, 'N·m', { min: 82, nominal: 97, max: 97, unit: 'N·m' }],
])('%o in %s is %o', (amount, unit, shown) => expect(amountIn(amount, 'torque', unit)).toEqual(shown));

// 3.175 and 9.525 mm: halves to the even figure (SP 811, B.7.1).
test.each([
  [0.125, 3.18],
  [0.375, 9.52],
])('%d in is %d mm', (nominal, shown) =>
  expect(amountIn({ nominal, unit: 'in' }, 'length', 'mm')).toEqual({ nominal: shown, unit: 'mm' }),
);

test.each([
  [{ min: 5, max: 4 }],
  [{ min: 5, nominal: 4 }],
  [{ nominal: 5, max: 4 }],
  [{ min: 3, nominal: 2, max: 4 }],
  [{ min: 3, nominal: 5, max: 4 }],
  [{ min: 5, nominal: 5, max: 4 }],
  [{ min: 5, nominal: 4, max: 4 }],
])('%o contradicts itself', (amount) =>
  expect(() => convertAmount({ ...amount, unit: 'N·m' }, 'torque', 'lbf·ft')).toThrow(
    new RangeError('the nominal value does not fit its limits'),
  ),
);

// An international mile is 1.609 344 km (SP 811, B.8): 10 km are 6.214 miles, 9 km 5.592, 20 km 12.427, 10 000 km 6213.7.
test.each<[Omit<Amount, 'unit'>, Omit<Amount, 'unit'>]>([
  [{ nominal: 10 }, { nominal: 6 }],
  [{ nominal: 9 }, { nominal: 5.6 }],
  [
    { min: 10, max: 20 },
    { min: 7, max: 12 },
  ],
  [
    { min: 9, max: 20 },
    { min: 5.6, max: 12.4 },
  ],
  [{ nominal: 10_000 }, { nominal: 6210 }],
])('of distances %o km are %o miles: none by tenths from ten on', (km, miles) =>
  expect(amountIn({ ...km, unit: 'km' }, 'distance', 'mi')).toEqual({ ...miles, unit: 'mi' }),
);

// 1 bar is 100 kPa, 1 lbf·ft is 1.3558 N·m (SP 811, B.8).
test('what comes out even without rounding says so; a multiple, a range and what was rounded do not', () => {
  const kPa = (amount: Omit<Amount, 'unit'>, by?: ReturnType<typeof exact>) =>
    convertAmount({ ...amount, unit: 'bar' }, 'pressure', 'kPa', by);
  expect(kPa({ nominal: 2 })).toMatchObject({ nominal: exact(200), rounded: true, even: true });
  expect(kPa({ nominal: 2 }, exact(2))).toMatchObject({ nominal: exact(400), even: false });
  expect(kPa({ min: 2, max: 3 }).even).toBe(false);
  expect(convertAmount({ nominal: 72, unit: 'lbf·ft' }, 'torque', 'N·m').even).toBe(false);
});

// However close: the next value that doubles can tell apart from another is written with no more than seventeen figures.
test('two limits stay apart in any unit, and the range does not grow', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
      fc.integer({ min: 0, max: 12 }),
      fc.integer({ min: 0, max: 10 }),
      fc.constantFrom('lbf·ft', 'lbf·in', 'kgf·m', 'kgf·cm'),
      (value, places, parts, symbol) => {
        const exactly = Number(value.toPrecision(1 + places));
        const step = 10 ** lastFigure(exactly);
        const [min, max] = [exactly, Number((exactly + step).toPrecision(15))];
        fc.pre(max > min);
        const nominal = parts === 0 ? min : parts === 10 ? max : undefined;
        const shown = amountIn({ min, max, ...(nominal && { nominal }), unit: 'N·m' }, 'torque', symbol);
        const [low, high] = [shown.min ?? Number.NaN, shown.max ?? Number.NaN];
        expect(low).toBeLessThan(high);
        expect(low).toBeGreaterThanOrEqual(convert(min, 'torque', 'N·m', symbol) * (1 - 1e-15));
        expect(high).toBeLessThanOrEqual(convert(max, 'torque', 'N·m', symbol) * (1 + 1e-15));
      },
    ),
    { numRuns: 300 },
  );
});

test('a unit of another kind is refused', () => {
  expect(() => convert(1, 'torque', 'N·m', 'psi')).toThrow(RangeError);
  expect(() => convertAmount({ nominal: 1, unit: 'psi' }, 'torque', 'N·m')).toThrow(RangeError);
});
