import type { SimpleKind } from './kinds.ts';
import { UNITS, type Unit, unitsOf } from './units.ts';

/** A spelling that stands for more than one unit, with what it may mean. */
interface Ambiguous {
  readonly spellings: readonly string[];
  /** Kinds within which it stays ambiguous; elsewhere the kind decides. */
  readonly kinds: readonly SimpleKind[];
  readonly problem: string;
  readonly help: string;
}

const AMBIGUOUS: readonly Ambiguous[] = [
  {
    spellings: ['lb', 'lbs', '#', 'pound', 'pounds'],
    kinds: ['torque', 'force', 'pressure'],
    problem: 'does not say pounds of what',
    help: 'write lbf for a force, lbf·ft or lbf·in for a torque, psi for a pressure, lb for a mass',
  },
  {
    spellings: ['oz', 'ounce', 'ounces', 'fl oz', 'fluid ounce', 'fluid ounces'],
    kinds: ['volume'],
    problem: 'does not say which ounce',
    help: 'write US fl oz (29.57 mL) or imp fl oz (28.41 mL); a mass in oz has kind: mass',
  },
  ...[
    ['pint', 'pints', 'pt', 'pts', 'US pt (473 mL) or imp pt (568 mL)'],
    ['quart', 'quarts', 'qt', 'qts', 'US qt (946 mL) or imp qt (1137 mL)'],
    ['gallon', 'gallons', 'gal', 'gals', 'US gal (3.785 L) or imp gal (4.546 L)'],
  ].map((row): Ambiguous => {
    const spellings = row.slice(0, -1);
    return {
      spellings,
      kinds: ['volume'],
      problem: `does not say which ${spellings[0]}; US and imperial ones differ by a fifth`,
      help: `write ${row.at(-1)}`,
    };
  }),
  {
    spellings: ['mil', 'mils'],
    kinds: ['length'],
    problem: 'may be a thousandth of an inch or a millimetre',
    help: 'write thou for 0.001 in, or mm',
  },
  {
    spellings: ['°', 'deg', 'degs', 'degree', 'degrees', 'º'],
    kinds: ['temperature', 'temperature-difference'],
    problem: 'does not say degrees of which scale',
    help: 'write °C or °F',
  },
  {
    spellings: ['kg', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms'],
    kinds: ['torque', 'force', 'pressure'],
    problem: 'is a mass',
    help: 'write kgf for a force, kgf·m or kgf·cm for a torque, kgf/cm² for a pressure, or better N, N·m, kPa',
  },
  {
    spellings: ['m'],
    kinds: ['distance', 'time'],
    problem: 'may be miles, metres, minutes or months',
    help: 'write km or mi for a distance; min or month for a time',
  },
];

/** A spelling without what makes no difference: capitals, dots, hyphens, blanks. */
export function unitKey(written: string): string {
  return written
    .replace(/[″“”]/g, '"')
    .replace(/º/g, '°')
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[\s.·⋅•∙*‐‑–-]+/gu, '')
    .replace(/μ/g, 'u');
}

const byKey = new Map<string, Unit[]>();
for (const unit of UNITS)
  for (const key of new Set([unit.symbol, ...unit.spellings].map(unitKey)))
    byKey.set(key, [...(byKey.get(key) ?? []), unit]);

const ambiguousByKey = new Map(
  AMBIGUOUS.flatMap((each) => each.spellings.map((spelling) => [unitKey(spelling), each])),
);

/** A kind in words: `temperature-difference` is "temperature difference". */
export function kindInWords(kind: string): string {
  return kind.replaceAll('-', ' ');
}

/** A kind as one of its sort: "a torque", "an angle". */
export function aKind(kind: string): string {
  return `${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kindInWords(kind)}`;
}

export type UnitFault = 'unit-unknown' | 'unit-ambiguous' | 'unit-of-other-kind';
export type UnitFound =
  | { readonly ok: true; readonly value: Unit }
  | { readonly ok: false; readonly fault: UnitFault; readonly problem: string; readonly help: string };

/**
 * The unit that a written unit means for a kind.
 *
 * @param written as people write it, such as `ft-lb` or `Nm`
 * @returns the unit; refused when unknown, of another kind, or ambiguous, with the choice named
 */
export function findUnit(written: string, kind: SimpleKind): UnitFound {
  const key = unitKey(written);
  const ambiguous = ambiguousByKey.get(key);
  if (ambiguous?.kinds.includes(kind))
    return { ok: false, fault: 'unit-ambiguous', problem: `"${written}" ${ambiguous.problem}`, help: ambiguous.help };
  const candidates = byKey.get(key) ?? [];
  const ofKind = candidates.filter((unit) => unit.kind === kind);
  // Capitals part a megohm from a milliohm, and nothing else.
  const found = ofKind.find((unit) => unit.symbol === written.normalize('NFKC')) ?? ofKind[0];
  if (found) return { ok: true, value: found };
  const own = unitsOf(kind).map((unit) => unit.symbol);
  const help = `units of ${kindInWords(kind)} are ${own.join(', ')}`;
  const kinds = [...candidates.map((unit) => unit.kind), ...(ambiguous && candidates.length === 0 ? ['volume'] : [])];
  const other = [...new Set(kinds.map(kindInWords))].join(' or ');
  return other
    ? {
        ok: false,
        fault: 'unit-of-other-kind',
        problem: `"${written}" is a unit of ${other}, not of ${kindInWords(kind)}`,
        help,
      }
    : { ok: false, fault: 'unit-unknown', problem: `no unit "${written}"`, help };
}

/** The units a spelling may stand for, of any kind; none when it is unknown. */
export function unitsWritten(written: string): readonly Unit[] {
  return byKey.get(unitKey(written)) ?? [];
}
