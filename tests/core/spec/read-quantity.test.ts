import { describe, expect, test } from 'vitest';
import { findUnit, type QuantityText, readQuantity, type SimpleKind } from '../../../src/core/spec/index.ts';

const amount = (row: QuantityText) => {
  const { quantity } = readQuantity(row);
  return quantity && 'amount' in quantity ? quantity.amount : undefined;
};
const faults = (row: QuantityText) => readQuantity(row).problems.map(({ fault, path }) => `${fault} ${path.join('/')}`);

describe('tolerances become limits', () => {
  test.each([
    [
      { nominal: 98, plusMinus: 5 },
      { nominal: 98, min: 93, max: 103 },
    ],
    [
      { nominal: 0.7, plusMinus: 0.1 },
      { nominal: 0.7, min: 0.6, max: 0.8 },
    ],
    [
      { nominal: 30, plus: 5, minus: 2 },
      { nominal: 30, min: 28, max: 35 },
    ],
    [
      { nominal: 30, plus: 5 },
      { nominal: 30, min: 30, max: 35 },
    ],
    [
      { min: 20, max: 30 },
      { min: 20, max: 30 },
    ],
    [{ max: 0.5 }, { max: 0.5 }],
    [{ nominal: 12 }, { nominal: 12 }],
  ])('%j', (written, read) => {
    expect(amount({ kind: 'torque', unit: 'Nm', ...written })).toEqual({ ...read, unit: 'N·m' });
  });
});

describe('what makes no sense is told with its key', () => {
  test.each<[QuantityText, string[]]>([
    [{ kind: 'torque', nominal: 98, unit: 'furlong' }, ['unit-unknown unit']],
    [{ kind: 'torque', nominal: 98, unit: 'kPa' }, ['unit-of-other-kind unit']],
    [{ kind: 'torque', nominal: 98, unit: 'lb' }, ['unit-ambiguous unit']],
    [{ kind: 'torque', nominal: 98 }, ['unit-missing ']],
    [{ kind: 'torque', unit: 'N·m' }, ['value-missing ']],
    [{ kind: 'torque', min: 9, max: 4, unit: 'N·m' }, ['min-above-max min']],
    [{ kind: 'torque', nominal: 12, min: 4, max: 9, unit: 'N·m' }, ['nominal-outside-limits nominal']],
    [{ kind: 'torque', plusMinus: 2, unit: 'N·m' }, ['tolerance-without-nominal plusMinus']],
    [{ kind: 'torque', min: 4, max: 9, plusMinus: 2, unit: 'N·m' }, ['tolerance-without-nominal plusMinus']],
    [{ kind: 'torque', nominal: 5, min: 4, plus: 2, unit: 'N·m' }, ['tolerance-written-twice plus']],
    [{ kind: 'mass', nominal: -5, unit: 'kg' }, ['value-impossible nominal']],
    [{ kind: 'mass', nominal: Number.NaN, unit: 'kg' }, ['value-impossible nominal']],
    [{ kind: 'torque', nominal: 0, unit: 'N·m' }, ['value-impossible nominal']],
    [{ kind: 'torque', nominal: 2, plusMinus: 3, unit: 'N·m' }, ['value-impossible plusMinus']],
    [{ kind: 'volume', nominal: 2, plus: 1, minus: 3, unit: 'mL' }, ['value-impossible minus']],
    // Absolute zero is −273.15 °C, −459.67 °F, 0 K (SI Brochure, 9th edition, 2.3.1; NIST SP 811, B.8).
    [{ kind: 'temperature', nominal: -273.16, unit: '°C' }, ['value-impossible nominal']],
    [{ kind: 'temperature', min: -459.68, unit: '°F' }, ['value-impossible min']],
    [{ kind: 'temperature', max: -1, unit: 'K' }, ['value-impossible max']],
    [
      {
        kind: 'torque-sequence',
        stages: [
          { nominal: 20, unit: 'N·m' },
          { nominal: -30, unit: 'N·m' },
        ],
      },
      ['value-impossible stages/1/nominal'],
    ],
    [{ kind: 'torque', nominal: 5, unit: 'N·m', under: { nominal: 3, unit: 'N' } }, ['field-of-other-kind under']],
    [{ kind: 'interval' }, ['value-missing ']],
    [{ kind: 'interval', distance: { nominal: 5, unit: 'm' } }, ['unit-ambiguous distance/unit']],
    [{ kind: 'torque-sequence' }, ['value-missing ']],
    [
      {
        kind: 'torque-sequence',
        stages: [
          { nominal: 20, unit: 'N·m' },
          { nominal: 4, unit: 'psi' },
        ],
      },
      ['unit-of-other-kind stages/1/unit'],
    ],
    [{ kind: 'length', min: 9, max: 4, unit: 'yard' }, ['unit-unknown unit', 'min-above-max min']],
  ])('%j: %j', (row, told) => {
    expect(faults(row)).toEqual(told);
    expect(readQuantity(row).quantity).toBeUndefined();
  });
});

describe('an ambiguous unit is refused with the choice named', () => {
  test.each<[string, SimpleKind, RegExp]>([
    ['pounds', 'torque', /lbf·ft or lbf·in/],
    ['lb', 'force', /lbf for a force/],
    ['oz', 'volume', /US fl oz .* or imp fl oz/],
    ['pint', 'volume', /US pt .* or imp pt/],
    ['qt', 'volume', /US qt .* or imp qt/],
    ['gal', 'volume', /US gal .* or imp gal/],
    ['degrees', 'temperature', /°C or °F/],
    ['mil', 'length', /thou/],
    ['kg', 'torque', /kgf·m/],
    ['m', 'distance', /km or mi/],
  ])('%s of %s', (written, kind, choice) => {
    const found = findUnit(written, kind);
    expect(found.ok).toBe(false);
    if (!found.ok) expect([found.fault, found.help]).toEqual(['unit-ambiguous', expect.stringMatching(choice)]);
  });

  test('where the kind decides, it is not ambiguous', () => {
    for (const [written, kind, symbol] of [
      ['lb', 'mass', 'lb'],
      ['oz', 'mass', 'oz'],
      ['degrees', 'angle', '°'],
      ['m', 'length', 'm'],
    ] as const)
      expect(findUnit(written, kind)).toMatchObject({ ok: true, value: { symbol } });
  });

  test.each(['Nm', 'nm', 'N-m', 'N m', 'N.m', 'N⋅m', 'newton-metres', 'Newton Meters'])(
    '%s is N·m for a torque',
    (written) => {
      expect(findUnit(written, 'torque')).toMatchObject({ ok: true, value: { symbol: 'N·m' } });
    },
  );
  test.each(['ft-lb', 'ft.lbs', 'lb-ft', 'ft lbf', 'FT-LBS.', 'foot-pounds', 'pound-feet'])(
    '%s is lbf·ft',
    (written) => {
      expect(findUnit(written, 'torque')).toMatchObject({ ok: true, value: { symbol: 'lbf·ft' } });
    },
  );
});
