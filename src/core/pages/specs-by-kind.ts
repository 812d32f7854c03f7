import { english } from '../locale/index.ts';
import type { Machine, Spec } from '../model/index.ts';
import type { Kind } from '../spec/index.ts';

const KIND_NAMES: Readonly<Record<Kind, string>> = {
  torque: english('Torque'),
  force: english('Force'),
  pressure: english('Pressure'),
  length: english('Length'),
  volume: english('Volume'),
  mass: english('Mass'),
  temperature: english('Temperature'),
  'temperature-difference': english('Temperature difference'),
  angle: english('Angle'),
  voltage: english('Voltage'),
  current: english('Current'),
  resistance: english('Resistance'),
  charge: english('Charge'),
  power: english('Power'),
  speed: english('Speed'),
  'turning-speed': english('Turning speed'),
  flow: english('Flow'),
  ratio: english('Ratio'),
  hardness: english('Hardness'),
  count: english('Count'),
  time: english('Time'),
  distance: english('Distance'),
  thread: english('Thread'),
  'viscosity-grade': english('Viscosity grade'),
  'torque-sequence': english('Torque sequence'),
  interval: english('Interval'),
};

/** Rows of one kind as the spec table's page lists them. */
export interface SpecKind {
  readonly kind: string;
  /** In words, such as `Torque sequence`. */
  readonly name: string;
  readonly rows: readonly Spec[];
}

/**
 * A machine's rows by kind, in the order of the table; within a kind those that can hurt somebody come first. Rows that
 * share an id stay together, so that nobody reads one year's value without seeing that there is another.
 */
export function specsByKind({ specs }: Machine): SpecKind[] {
  const critical = new Set(specs.filter(({ written }) => written.critical).map(({ id }) => id));
  const first = new Map<string, number>();
  for (const [i, { id }] of specs.entries()) if (!first.has(id)) first.set(id, i);
  const rank = ({ id }: Spec) => (critical.has(id) ? 0 : specs.length) + (first.get(id) ?? 0);
  return [...new Set(specs.map(({ written }) => written.kind))].map((kind) => ({
    kind,
    name: KIND_NAMES[kind],
    rows: specs.filter(({ written }) => written.kind === kind).toSorted((a, b) => rank(a) - rank(b)),
  }));
}
