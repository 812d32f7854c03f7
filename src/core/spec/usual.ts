import type { SimpleKind } from './kinds.ts';

/** What a quantity of a kind usually is, where the title of the row holds the words; without words, in any workshop. */
export interface Usual {
  /** Each has to stand in the title or the id of the row, in any order. */
  readonly words?: string;
  readonly of: SimpleKind;
  readonly from: number;
  readonly to: number;
  readonly unit: string;
}

/**
 * Spans outside of which a value is told as unusual; the first that fits counts. They cover what a small workshop meets,
 * from a bicycle to a car, a saw bench or a house, and are wide on purpose: they catch a slipped point or a wrong unit,
 * not a tenth more or less. Common practice, no source, where none is named.
 */
export const USUAL: readonly Usual[] = [
  { words: 'bleed', of: 'torque', from: 2, to: 20, unit: 'N·m' },
  { words: 'spark plug', of: 'torque', from: 5, to: 40, unit: 'N·m' },
  { words: 'drain plug', of: 'torque', from: 5, to: 80, unit: 'N·m' },
  { words: 'axle nut', of: 'torque', from: 15, to: 400, unit: 'N·m' },
  { words: 'pinch bolt', of: 'torque', from: 1.5, to: 60, unit: 'N·m' },
  { words: 'clamp', of: 'torque', from: 1.5, to: 60, unit: 'N·m' },
  { words: 'banjo', of: 'torque', from: 4, to: 60, unit: 'N·m' },
  { words: 'caliper', of: 'torque', from: 4, to: 150, unit: 'N·m' },
  { words: 'sprocket', of: 'torque', from: 5, to: 200, unit: 'N·m' },
  { words: 'locknut', of: 'torque', from: 2, to: 120, unit: 'N·m' },
  { words: 'lockring', of: 'torque', from: 10, to: 100, unit: 'N·m' },
  { words: 'pedal', of: 'torque', from: 10, to: 100, unit: 'N·m' },
  { words: 'bar nut', of: 'torque', from: 5, to: 60, unit: 'N·m' },
  { words: 'terminal', of: 'torque', from: 0.3, to: 25, unit: 'N·m' },
  { words: 'screw', of: 'torque', from: 0.2, to: 30, unit: 'N·m' },
  { of: 'torque', from: 0.2, to: 600, unit: 'N·m' },

  { words: 'tyre', of: 'pressure', from: 80, to: 1000, unit: 'kPa' },
  { words: 'tire', of: 'pressure', from: 80, to: 1000, unit: 'kPa' },
  { words: 'fuel pressure', of: 'pressure', from: 5, to: 1500, unit: 'kPa' },
  { words: 'relief', of: 'pressure', from: 130, to: 40_000, unit: 'kPa' },
  { words: 'pump pressure', of: 'pressure', from: 100, to: 40_000, unit: 'kPa' },
  { of: 'pressure', from: 1, to: 40_000, unit: 'kPa' },

  { words: 'burr gap', of: 'length', from: 0.05, to: 2, unit: 'mm' },
  { words: 'gap', of: 'length', from: 0.05, to: 4, unit: 'mm' },
  { words: 'clearance', of: 'length', from: 0.01, to: 5, unit: 'mm' },
  { words: 'run out', of: 'length', from: 0.01, to: 1.5, unit: 'mm' },
  { words: 'runout', of: 'length', from: 0.01, to: 1.5, unit: 'mm' },
  { words: 'adjuster difference', of: 'length', from: 0.05, to: 3, unit: 'mm' },
  { words: 'difference', of: 'length', from: 0.01, to: 10, unit: 'mm' },
  { words: 'depth gauge', of: 'length', from: 0.3, to: 3, unit: 'mm' },
  { words: 'slack', of: 'length', from: 0.5, to: 120, unit: 'mm' },
  { words: 'sag', of: 'length', from: 0.3, to: 30, unit: 'mm' },
  { words: 'below bar', of: 'length', from: 0.3, to: 30, unit: 'mm' },
  { words: 'play', of: 'length', from: 0.1, to: 40, unit: 'mm' },
  { words: 'lining', of: 'length', from: 0.5, to: 15, unit: 'mm' },
  { words: 'pad', of: 'length', from: 0.5, to: 15, unit: 'mm' },
  { words: 'tread', of: 'length', from: 0.5, to: 20, unit: 'mm' },
  { words: 'disc', of: 'length', from: 1, to: 40, unit: 'mm' },
  { words: 'cutter', of: 'length', from: 1, to: 60, unit: 'mm' },
  { words: 'rivet', of: 'length', from: 1, to: 25, unit: 'mm' },
  { words: 'pitches', of: 'length', from: 50, to: 1500, unit: 'mm' },
  { words: 'chain pitch', of: 'length', from: 4, to: 60, unit: 'mm' },
  { words: 'thread pitch', of: 'length', from: 0.2, to: 8, unit: 'mm' },
  { of: 'length', from: 0.01, to: 5000, unit: 'mm' },

  { words: 'engine oil', of: 'volume', from: 0.25, to: 15, unit: 'L' },
  { words: 'brake fluid', of: 'volume', from: 10, to: 1500, unit: 'mL' },
  { words: 'tank', of: 'volume', from: 0.05, to: 100, unit: 'L' },
  { words: 'boiler', of: 'volume', from: 0.1, to: 500, unit: 'L' },
  { words: 'oil', of: 'volume', from: 0.001, to: 40, unit: 'L' },
  { words: 'coolant', of: 'volume', from: 0.1, to: 40, unit: 'L' },
  { words: 'fluid', of: 'volume', from: 0.001, to: 30, unit: 'L' },
  { of: 'volume', from: 0.1, to: 200_000, unit: 'mL' },
  { words: 'grease', of: 'mass', from: 0.2, to: 200, unit: 'g' },
  { words: 'kerb mass', of: 'mass', from: 30, to: 3500, unit: 'kg' },
  { words: 'curb weight', of: 'mass', from: 30, to: 3500, unit: 'kg' },
  { of: 'mass', from: 0.05, to: 3_000_000, unit: 'g' },
  { of: 'force', from: 0.05, to: 500_000, unit: 'N' },

  // The least that a fluid may boil at is 140 °C, of DOT 3 with water in it. Source: 49 CFR 571.116, S5.1.2.
  { words: 'fluid boiling', of: 'temperature', from: 130, to: 400, unit: '°C' },
  { words: 'boiling', of: 'temperature', from: 30, to: 400, unit: '°C' },
  { words: 'thermostat', of: 'temperature', from: 0, to: 400, unit: '°C' },
  { words: 'group head', of: 'temperature', from: 70, to: 110, unit: '°C' },
  { words: 'freezer', of: 'temperature', from: -40, to: -5, unit: '°C' },
  { of: 'temperature', from: -60, to: 1400, unit: '°C' },
  { of: 'temperature-difference', from: 0.5, to: 1000, unit: '°C' },
  { words: 'blade', of: 'angle', from: 0.1, to: 90, unit: '°' },
  { words: 'plate angle', of: 'angle', from: 3, to: 90, unit: '°' },
  { words: 'steering lock', of: 'angle', from: 8, to: 90, unit: '°' },
  { words: 'screw opened', of: 'angle', from: 15, to: 2000, unit: '°' },
  { of: 'angle', from: 0.02, to: 7200, unit: '°' },

  { words: 'starter battery', of: 'voltage', from: 5, to: 60, unit: 'V' },
  { words: 'battery pack', of: 'voltage', from: 1, to: 1000, unit: 'V' },
  { words: 'traction battery', of: 'voltage', from: 10, to: 1000, unit: 'V' },
  // Of a bicycle, a motorcycle, a saw, a house; of what a car drives by, the title says pack or traction.
  { words: 'battery', of: 'voltage', from: 1, to: 100, unit: 'V' },
  { words: 'mains', of: 'voltage', from: 90, to: 500, unit: 'V' },
  { of: 'voltage', from: 0.001, to: 50_000, unit: 'V' },
  { words: 'element', of: 'resistance', from: 0.5, to: 500, unit: 'Ω' },
  { words: 'loop', of: 'resistance', from: 0.02, to: 1700, unit: 'Ω' },
  { words: 'insulation', of: 'resistance', from: 0.05, to: 100_000, unit: 'MΩ' },
  { words: 'fuse', of: 'current', from: 0.05, to: 400, unit: 'A' },
  { of: 'current', from: 0.000_001, to: 2000, unit: 'A' },
  { of: 'charge', from: 0.05, to: 2000, unit: 'Ah' },
  { words: 'idle', of: 'turning-speed', from: 400, to: 6000, unit: 'rpm' },
  { words: 'pump', of: 'flow', from: 0.05, to: 300, unit: 'L/min' },
  { of: 'turning-speed', from: 1, to: 100_000, unit: 'rpm' },
  { of: 'ratio', from: 0.05, to: 500, unit: ':1' },

  { of: 'speed', from: 0.05, to: 500, unit: 'km/h' },
  { of: 'distance', from: 20, to: 500_000, unit: 'km' },
  // What is done again sooner than in an hour, or after more than fifteen years, is no interval of a workshop.
  { of: 'time', from: 1 / 24, to: 5475, unit: 'day' },
];

/** The ends of a span with the figures that they are given by: they are rough, and none is more exact than the other. */
export function spanInWords({ from, to, unit }: Pick<Usual, 'from' | 'to' | 'unit'>): string {
  return `${figures(from)} to ${figures(to)} ${unit}`;
}

function figures(value: number): string {
  const written = String(Number(value.toPrecision(3))).replace('-', '−');
  return Math.abs(value) < 10_000 ? written : written.replace(/\B(?=(\d{3})+$)/g, ' ');
}
