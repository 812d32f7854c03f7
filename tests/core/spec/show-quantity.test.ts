import { describe, expect, test } from 'vitest';
import {
  type Quantity,
  type QuantityText,
  readQuantity,
  type System,
  showQuantity,
  showTorqueTimes,
} from '../../../src/core/spec/index.ts';

function shown(row: QuantityText, ...systems: System[]): string {
  const { quantity } = readQuantity(row);
  if (!quantity) throw new Error(`unsound: ${JSON.stringify(row)}`);
  const { primary, secondary } = showQuantity(quantity, systems.length > 0 ? systems : undefined);
  return (secondary === undefined ? primary : `${primary} | ${secondary}`).replaceAll('\u202f', ' ');
}

describe('both systems, limits rounded inward', () => {
  test.each<[QuantityText, string]>([
    // 93 N·m = 68.593 lbf·ft, 103 N·m = 75.969 lbf·ft (NIST SP 811 factor): the pair ± stays inside.
    [{ kind: 'torque', nominal: 98, plusMinus: 5, unit: 'N·m' }, '98 ± 5 N·m | 72.3 ± 3.6 lbf·ft'],
    [{ kind: 'torque', min: 93, max: 103, unit: 'N·m' }, '93–103 N·m | 68.6–75.9 lbf·ft'],
    [{ kind: 'torque', nominal: 70, unit: 'lbf·ft' }, '95 N·m | 70 lbf·ft'],
    [{ kind: 'torque', nominal: 5, unit: 'N·m' }, '5 N·m | 44 lbf·in'],
    [
      { kind: 'length', nominal: 18.9, plus: 0.2, minus: 0.1, unit: 'mm' },
      '18.9 (+0.2/−0.1) mm | 0.744 (+0.007/−0.003) in',
    ],
    [{ kind: 'torque', nominal: 30, plus: 5, minus: 2, unit: 'N·m' }, '30 (+5/−2) N·m | 22.1 (+3.7/−1.4) lbf·ft'],
    // 0.5 mm = 0.019 685 in: a greatest value is rounded down.
    [{ kind: 'length', max: 0.5, unit: 'mm' }, 'at most 0.5 mm | at most 0.019 in'],
    [{ kind: 'length', min: 1.5, unit: 'mm' }, 'at least 1.5 mm | at least 0.060 in'],
    [
      { kind: 'length', min: 35, max: 45, unit: 'mm', under: { nominal: 45, unit: 'N' } },
      '35–45 mm under 45 N | 1.38–1.77 in under 10.1 lbf',
    ],
    [{ kind: 'pressure', nominal: 225, unit: 'kPa' }, '225 kPa | 32.6 psi'],
    [{ kind: 'pressure', nominal: 2.25, unit: 'bar' }, '2.25 bar | 32.6 psi'],
    [{ kind: 'temperature', min: 230, unit: '°C' }, 'at least 230 °C | at least 446 °F'],
    [{ kind: 'temperature', min: -40, max: 120, unit: '°C' }, '−40 to 120 °C | −40 to 248 °F'],
    [{ kind: 'temperature-difference', nominal: 10, unit: 'K' }, '10 K difference | 18 °F difference'],
    [{ kind: 'voltage', min: 12.4, unit: 'V' }, 'at least 12.4 V'],
    [{ kind: 'angle', nominal: 90, plusMinus: 5, unit: '°' }, '90 ± 5°'],
    [{ kind: 'angle', nominal: 90, plus: 5, minus: 3, unit: '°' }, '90° (+5°/−3°)'],
    [{ kind: 'angle', min: -1.5, max: -0.5, unit: '°' }, '−1.5 to −0.5°'],
    [{ kind: 'interval', distance: { max: 1000, unit: 'km' } }, 'every 1000 km at most | every 621 mi at most'],
    [
      { kind: 'interval', distance: { nominal: 5000, plusMinus: 500, unit: 'km' }, time: { max: 6, unit: 'month' } },
      'every 5000 ± 500 km or 6 months at most, whichever comes first | every 3107 ± 310 mi or 6 months at most, whichever comes first',
    ],
    [{ kind: 'angle', nominal: 2.25, unit: 'turns' }, '2.25 turns'],
    [{ kind: 'volume', nominal: 1.9, unit: 'L' }, '1.9 L | 2.0 US qt'],
    [{ kind: 'volume', nominal: 300, unit: 'mL' }, '300 mL | 10.14 US fl oz'],
    [
      { kind: 'interval', distance: { nominal: 12000, unit: 'km' }, time: { nominal: 2, unit: 'years' } },
      'every 12 000 km or 2 years, whichever comes first | every 7460 mi or 2 years, whichever comes first',
    ],
    [
      {
        kind: 'torque-sequence',
        stages: [
          { nominal: 20, unit: 'N·m' },
          { nominal: 90, unit: '°' },
        ],
      },
      '20 N·m, then 90° | 14.8 lbf·ft, then 90°',
    ],
  ])('%j', (row, text) => expect(shown(row)).toBe(text));
});

test('the shop chooses the two systems', () => {
  const oil: QuantityText = { kind: 'volume', nominal: 1.9, unit: 'L' };
  expect(shown(oil, 'imperial', 'metric')).toBe('3.3 imp pt | 1.9 L');
  expect(shown({ kind: 'torque', nominal: 10, unit: 'N·m' }, 'us', 'metric')).toBe('7.4 lbf·ft | 10 N·m');
});

test('a wrench setting keeps as many figures as a converted spec, in both units', () => {
  // T · L/(L + E) with L 400 mm and E 45 mm: 98 N·m · 400/445 = 88.0899 N·m = 64.9718 lbf·ft (factor: NIST SP 811).
  expect(showTorqueTimes({ nominal: 98, unit: 'N·m' }, [400, 445])).toEqual({
    primary: '88.1 N·m',
    secondary: '65.0 lbf·ft',
  });
  // 120 N·m · 500/600 = 100 N·m exactly = 73.7562 lbf·ft; 1 N·m becomes 0.83 N·m, so tenths stay as in 36 ft = 11.0 m.
  expect(showTorqueTimes({ nominal: 120, unit: 'N·m' }, [500, 600])).toEqual({
    primary: '100.0 N·m',
    secondary: '73.8 lbf·ft',
  });
});

// 1 in = 25.4 mm and 1 mi = 1.609 344 km exactly (NIST SP 811, B.8).
test.each([
  ['15.875 mm is five eighths of an inch, and no figure more', { nominal: 15.875, unit: 'mm' }, 'length', '0.625 in'],
  [
    'a size that does not come out even keeps the figures it was written with',
    { nominal: 36, unit: 'ft' },
    'length',
    '36 ft',
  ],
  ['25.4 mm is one inch', { nominal: 25.4, unit: 'mm' }, 'length', '1 in'],
  ['800 km is 497.1 mi, and nobody rides by tenths', { nominal: 800, unit: 'km' }, 'distance', '497 mi'],
  ['at most 800 km is never more', { max: 800, unit: 'km' }, 'distance', 'at most 497 mi'],
  ['at least 12 km is never less', { min: 12, unit: 'km' }, 'distance', 'at least 8 mi'],
  ['a short way keeps its tenths', { nominal: 1.5, unit: 'km' }, 'distance', '0.93 mi'],
] as const)('%s', (_, amount, kind, shown) => {
  const { primary, secondary } = showQuantity({ kind, amount } as Quantity, ['metric', 'us']);
  expect([primary, secondary]).toContain(shown);
});
