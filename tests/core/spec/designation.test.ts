import { describe, expect, test } from 'vitest';
import { readDesignation, readQuantity, showQuantity, writtenQuantity } from '../../../src/core/spec/index.ts';

describe('a designation is read in the one way its standard writes it', () => {
  // ISO 965-1 and ASME B1.1 for threads, SAE J300 and ISO 3448 for grades; from memory.
  test.each([
    ['thread', 'm8 x 1.25', 'M8×1.25'],
    ['thread', 'M8', 'M8'],
    ['thread', 'M10*1 LH', 'M10×1 LH'],
    ['thread', '3/8-24 UNF', '3/8-24 UNF'],
    ['thread', '3/8 - 24', '3/8-24 UNF'],
    ['thread', '5/16-18', '5/16-18 UNC'],
    ['thread', '#10-32', '10-32 UNF'],
    ['thread', '1/4-18 NPT', '1/4-18 NPT'],
    ['thread', 'G 1/4', 'G 1/4'],
    ['thread', '1.37x24 TPI', '1.37 in×24 TPI'],
    ['viscosity-grade', '10w40', '10W-40'],
    ['viscosity-grade', 'SAE 10W-40', '10W-40'],
    ['viscosity-grade', 'sae30', 'SAE 30'],
    ['viscosity-grade', '80W-90', '80W-90'],
    ['viscosity-grade', 'ISO VG 32', 'ISO VG 32'],
  ] as const)('%s %s is %s', (kind, written, designation) => {
    expect(readDesignation(written, kind)).toEqual({ ok: true, value: designation });
  });

  test.each([
    ['thread', 'M8×8'],
    ['thread', 'M0'],
    ['thread', '3/8-16 UNF'],
    ['thread', '10-32 UNC'],
    ['thread', '8 mm'],
    ['viscosity-grade', '11W-40'],
    ['viscosity-grade', '10W-45'],
    ['viscosity-grade', 'ISO VG 33'],
    ['viscosity-grade', 'thick'],
  ] as const)('%s %s is refused', (kind, written) => {
    expect(readDesignation(written, kind).ok).toBe(false);
  });

  test('of a row it is the quantity, in every system the same', () => {
    const { quantity } = readQuantity({ kind: 'thread', designation: 'm8x1.25' });
    expect(quantity).toEqual({ kind: 'thread', designation: 'M8×1.25' });
    expect(quantity && showQuantity(quantity)).toEqual({ primary: 'M8×1.25' });
  });

  test('a row without one, or with numbers, says so', () => {
    expect(readQuantity({ kind: 'viscosity-grade' }).problems.map(({ fault }) => fault)).toEqual(['value-missing']);
    expect(readQuantity({ kind: 'thread', designation: 'M8', nominal: 8, unit: 'mm' }).problems).toHaveLength(2);
  });
});

describe('numbers of the newer kinds', () => {
  const shown = (row: Parameters<typeof readQuantity>[0], systems?: Parameters<typeof showQuantity>[1]) => {
    const { quantity } = readQuantity(row);
    return quantity && (systems ? showQuantity(quantity, systems) : writtenQuantity(quantity));
  };

  test.each([
    [{ kind: 'turning-speed', nominal: 2800, plusMinus: 100, unit: 'rpm' }, '2800 ± 100 rpm'],
    [{ kind: 'turning-speed', max: 3000, unit: 'r/min' }, 'at most 3000 rpm'],
    [{ kind: 'ratio', nominal: 50, unit: 'to 1' }, '50:1'],
    [{ kind: 'ratio', min: 40, max: 50, unit: ':1' }, '40:1–50:1'],
    [{ kind: 'resistance', min: 1, unit: 'MΩ' }, 'at least 1 MΩ'],
    [{ kind: 'resistance', max: 5, unit: 'mΩ' }, 'at most 5 mΩ'],
    [{ kind: 'current', max: 30, unit: 'milliamps' }, 'at most 30 mA'],
    [{ kind: 'charge', nominal: 5, unit: 'amp hours' }, '5 Ah'],
    [{ kind: 'hardness', min: 58, max: 60, unit: 'Rockwell C' }, '58–60 HRC'],
    [{ kind: 'count', nominal: 110, unit: 'links' }, '110 links'],
  ] as const)('%o reads %s', (row, text) => {
    expect(shown(row)).toBe(text);
  });

  // 1 US gal is 3.785 411 784 L, 1 ft is 0.3048 m (NIST Handbook 44, App. C; SP 811, B.8).
  test('flows are shown in what the other system measures them with', () => {
    expect(shown({ kind: 'flow', nominal: 8, unit: 'L/min' }, ['metric', 'us'])).toEqual({
      primary: '8 L/min',
      secondary: '2.1 US gal/min',
    });
    expect(shown({ kind: 'flow', nominal: 400, unit: 'cfm' }, ['us', 'metric'])).toEqual({
      primary: '400 ft³/min',
      secondary: '680 m³/h',
    });
  });

  test.each([
    [{ kind: 'hardness', nominal: 75, unit: 'HRC' }],
    [{ kind: 'hardness', nominal: 15, unit: 'HRC' }],
    [{ kind: 'hardness', max: 101, unit: 'Shore A' }],
    [{ kind: 'count', nominal: 43.5, unit: 'teeth' }],
    [{ kind: 'ratio', nominal: 0, unit: ':1' }],
    [{ kind: 'turning-speed', nominal: -100, unit: 'rpm' }],
  ] as const)('%o is impossible', (row) => {
    expect(readQuantity(row).problems.map(({ fault }) => fault)).toEqual(['value-impossible']);
  });
});
