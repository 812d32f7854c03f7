import type { SimpleKind } from '../spec/index.ts';
import { must } from '../time/index.ts';

/** Units as Spanish says and writes them, without accents, by kind. Common practice, no source. */
const UNITS: readonly (readonly [kind: SimpleKind, written: string])[] = [
  ['torque', 'newton(?:s|ios?)?[- ]?metros?|libras?[- ]pies?|kilogramos?[- ]metros?|n[·. ]?m|lbf?[·. -]ft'],
  ['length', 'milimetros?|centimetros?|micras?|micrometros?|pulgadas?|mm|cm|µm'],
  ['volume', 'mililitros?|centilitros?|litros?|ml|cl'],
  ['mass', 'gramos?|kilos?|kilogramos?|kg'],
  ['pressure', 'bar(?:es)?|kilopascal(?:es)?|kpa|psi'],
  ['temperature', 'grados? (?:centigrados?|celsius)|° ?c'],
  ['angle', 'grados?|vueltas?|°'],
  ['distance', 'kilometros?|millas?|km'],
  ['voltage', 'voltios?'],
  ['current', 'amperios?'],
  ['turning-speed', 'revoluciones por minuto|rpm'],
];

const KINDS = UNITS.map(([kind, written]) => ({ kind, is: new RegExp(`^(?:${written})$`, 'u') }));

/** Of units in Spanish: how to find one, and which kind it is of. */
export const kindsOfSpanish = {
  pattern: UNITS.map(([, written]) => written).join('|'),
  kindOf: (unit: string): SimpleKind =>
    must(
      KINDS.find(({ is }) => is.test(unit)),
      'the kind of a unit',
    ).kind,
} as const;
