import { convert } from './convert.ts';
import type { SimpleKind } from './kinds.ts';

/** Units of a kind that are taken for one another. */
const CONFUSED: Readonly<Partial<Record<SimpleKind, readonly (readonly [string, string])[]>>> = {
  torque: [
    ['N·m', 'lbf·ft'],
    ['lbf·in', 'lbf·ft'],
    ['N·m', 'lbf·in'],
    ['kgf·m', 'N·m'],
    ['kgf·cm', 'N·m'],
  ],
  pressure: [
    ['psi', 'kPa'],
    ['bar', 'psi'],
    ['bar', 'kPa'],
    ['kgf/cm²', 'psi'],
  ],
  length: [
    ['mm', 'in'],
    ['thou', 'mm'],
    ['cm', 'mm'],
    ['cm', 'in'],
  ],
  volume: [
    ['US fl oz', 'mL'],
    ['US qt', 'L'],
    ['US qt', 'US pt'],
    ['US gal', 'L'],
  ],
  mass: [
    ['lb', 'kg'],
    ['oz', 'g'],
  ],
  force: [
    ['lbf', 'N'],
    ['kgf', 'N'],
    ['lbf', 'kgf'],
  ],
  distance: [['mi', 'km']],
  speed: [['mph', 'km/h']],
  current: [['mA', 'A']],
  voltage: [['mV', 'V']],
  resistance: [
    ['Ω', 'kΩ'],
    ['kΩ', 'MΩ'],
  ],
  charge: [['mAh', 'Ah']],
  'turning-speed': [['1/s', 'rpm']],
  flow: [
    ['US gal/min', 'L/min'],
    ['mL/min', 'L/min'],
    ['ft³/min', 'm³/h'],
  ],
};

/** Two units, one taken for the other. */
export interface UnitSlip {
  readonly meant: string;
  readonly taken: string;
}

/**
 * The units that were likely taken for one another, where one value is as many times the other as the units differ.
 *
 * @param value, other of one quantity, in the same unit
 * @param within share that the ratio may be off, for values rounded on the way
 */
export function likelySlip(value: number, other: number, kind: SimpleKind, within = 0.02): UnitSlip | undefined {
  if (value <= 0 || other <= 0) return undefined;
  const ratio = value / other;
  const found = (CONFUSED[kind] ?? []).flatMap(([a, b]) => {
    const factor = convert(1, kind, a, b);
    return [
      { meant: a, taken: b, off: Math.abs(ratio * factor - 1) },
      { meant: b, taken: a, off: Math.abs(ratio / factor - 1) },
    ];
  });
  const [best] = found.filter(({ off }) => off <= within).toSorted((a, b) => a.off - b.off);
  return best && { meant: best.meant, taken: best.taken };
}
