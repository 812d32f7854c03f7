import type { SimpleKind } from '../spec/index.ts';

/** Units as Spanish says and writes them, without accents, by kind. Common practice, no source. */
const UNITS: Readonly<Partial<Record<SimpleKind, string>>> = {
  torque: 'newton(?:s|ios?)?[- ]?metros?|libras?[- ]pies?|kilogramos?[- ]metros?|n[·. ]?m|lbf?[·. -]ft',
  length: 'milimetros?|centimetros?|micras?|micrometros?|pulgadas?|mm|cm|µm',
  volume: 'mililitros?|centilitros?|litros?|ml|cl',
  mass: 'gramos?|kilos?|kilogramos?|kg',
  pressure: 'bar(?:es)?|kilopascal(?:es)?|kpa|psi',
  temperature: 'grados? (?:centigrados?|celsius)|° ?c',
  angle: 'grados?|vueltas?|°',
  distance: 'kilometros?|millas?|km',
  voltage: 'voltios?',
  current: 'amperios?',
  'turning-speed': 'revoluciones por minuto|rpm',
};

const KINDS: readonly SimpleKind[] = [
  'torque',
  'length',
  'volume',
  'mass',
  'pressure',
  'temperature',
  'angle',
  'distance',
  'voltage',
  'current',
  'turning-speed',
];

/** Of units in Spanish: how to find one, and which kind it is of. */
export const kindsOfSpanish = {
  pattern: Object.values(UNITS).join('|'),
  kindOf: (unit: string): SimpleKind =>
    KINDS.find((kind) => new RegExp(`^(?:${UNITS[kind]})$`, 'u').test(unit)) ?? 'length',
} as const;
