import type { SimpleKind } from './kinds.ts';

/** What a quantity of a kind usually is, where the title of the row holds a word; without a word, in any workshop. */
interface Usual {
  readonly word?: string;
  readonly of: SimpleKind;
  readonly from: number;
  readonly to: number;
  readonly unit: string;
}

/**
 * Spans outside of which a value is told as unusual; the first that fits counts. They are wide on purpose: they catch
 * slips of ten and of a unit, not of a tenth. All of them common practice, no source.
 */
export const USUAL: readonly Usual[] = [
  // Torque.
  { word: 'bleed', of: 'torque', from: 2, to: 20, unit: 'N·m' },
  { word: 'plug', of: 'torque', from: 5, to: 80, unit: 'N·m' },
  { word: 'axle nut', of: 'torque', from: 15, to: 400, unit: 'N·m' },
  { word: 'screw', of: 'torque', from: 0.2, to: 30, unit: 'N·m' },
  { of: 'torque', from: 0.2, to: 600, unit: 'N·m' },
  // Pressure.
  { word: 'tyre', of: 'pressure', from: 40, to: 1000, unit: 'kPa' },
  { word: 'tire', of: 'pressure', from: 40, to: 1000, unit: 'kPa' },
  { of: 'pressure', from: 1, to: 40_000, unit: 'kPa' },
  // Length.
  { word: 'gap', of: 'length', from: 0.03, to: 5, unit: 'mm' },
  { word: 'gauge', of: 'length', from: 0.1, to: 3, unit: 'mm' },
  { word: 'clearance', of: 'length', from: 0.01, to: 5, unit: 'mm' },
  { word: 'runout', of: 'length', from: 0.01, to: 1.5, unit: 'mm' },
  { word: 'run out', of: 'length', from: 0.01, to: 1.5, unit: 'mm' },
  { word: 'slack', of: 'length', from: 0.5, to: 120, unit: 'mm' },
  { word: 'sag', of: 'length', from: 0.3, to: 30, unit: 'mm' },
  { word: 'play', of: 'length', from: 0.1, to: 40, unit: 'mm' },
  { word: 'lining', of: 'length', from: 0.5, to: 12, unit: 'mm' },
  { word: 'tread', of: 'length', from: 0.5, to: 20, unit: 'mm' },
  { word: 'disc', of: 'length', from: 1, to: 35, unit: 'mm' },
  { word: 'pitch', of: 'length', from: 2, to: 60, unit: 'mm' },
  { word: 'rivet', of: 'length', from: 1, to: 25, unit: 'mm' },
  { word: 'link', of: 'length', from: 2, to: 60, unit: 'mm' },
  { word: 'cutter', of: 'length', from: 1, to: 40, unit: 'mm' },
  { word: 'twenty pitches', of: 'length', from: 100, to: 1000, unit: 'mm' },
  { word: 'adjusters', of: 'length', from: 0.1, to: 3, unit: 'mm' },
  { of: 'length', from: 0.01, to: 3000, unit: 'mm' },
  // Volume and mass.
  { word: 'engine oil', of: 'volume', from: 0.3, to: 15, unit: 'L' },
  { word: 'brake', of: 'volume', from: 15, to: 1100, unit: 'mL' },
  { word: 'tank', of: 'volume', from: 0.05, to: 80, unit: 'L' },
  { of: 'volume', from: 0.5, to: 60_000, unit: 'mL' },
  { word: 'grease', of: 'mass', from: 0.5, to: 45, unit: 'g' },
  { word: 'ride', of: 'mass', from: 20, to: 600, unit: 'kg' },
  { of: 'mass', from: 0.1, to: 2_000_000, unit: 'g' },
  // The rest.
  { word: 'boiling', of: 'temperature', from: 90, to: 400, unit: '°C' },
  { of: 'temperature', from: -60, to: 1300, unit: '°C' },
  { word: 'opened', of: 'angle', from: 15, to: 720, unit: '°' },
  { word: 'steering', of: 'angle', from: 8, to: 90, unit: '°' },
  { word: 'plate', of: 'angle', from: 5, to: 90, unit: '°' },
  { of: 'angle', from: 0.05, to: 3600, unit: '°' },
  { word: 'battery', of: 'voltage', from: 1.1, to: 100, unit: 'V' },
  { of: 'voltage', from: 0.01, to: 1000, unit: 'V' },
  { word: 'oil chain', of: 'distance', from: 100, to: 3000, unit: 'km' },
  { word: 'slack', of: 'distance', from: 100, to: 5000, unit: 'km' },
  { of: 'distance', from: 50, to: 100_000, unit: 'km' },
  { of: 'time', from: 1 / 86_400, to: 3660, unit: 'day' },
];
