import { isMap, isSeq, parseDocument, type YAMLMap } from 'yaml';
import { SIMPLE_KINDS, type SimpleKind, unitsOf } from '../../../src/core/spec/index.ts';
import type { Kind } from '../../../src/core/spec/kinds.ts';

/** Ways in which somebody slips who copies a table. */
export const SLIPS = [
  'ten times',
  'a tenth',
  'sign turned',
  'another unit',
  'tolerance doubled',
  'year shifted',
  'rows exchanged',
] as const;
export type Slip = (typeof SLIPS)[number];

/** A spec table with one slip in it. */
export interface Mutant {
  readonly slip: Slip;
  /** Where and what, for people. */
  readonly name: string;
  /** The whole file. */
  readonly text: string;
  /** Positions of the rows that were changed. */
  readonly rows: readonly number[];
}

type Path = readonly (string | number)[];
const VALUES = ['nominal', 'min', 'max'] as const;
const TOLERANCES = ['plusMinus', 'plus', 'minus'] as const;
const QUANTITY = [...VALUES, ...TOLERANCES, 'unit', 'stages', 'distance', 'time', 'under', 'also'] as const;

/** Every mutant of a spec table, one slip each, in the order of the file. */
export function mutantsOf(source: string): Mutant[] {
  const rows = rowsOf(source);
  return [
    ...rows.flatMap((row, index) =>
      [...numbersOf(row), ...unitsSwapped(row), ...yearsShifted(row)].map((slip) => mutant(source, index, row, slip)),
    ),
    ...exchanged(source, rows),
  ].filter(({ text }) => text !== source);
}

interface Row {
  readonly id: string;
  readonly kind: Kind;
  readonly map: YAMLMap;
}

function rowsOf(source: string): Row[] {
  const specs = parseDocument(source).get('specs');
  if (!isSeq(specs)) return [];
  return specs.items.flatMap((item) =>
    isMap(item) ? [{ id: String(item.get('id')), kind: item.get('kind') as Row['kind'], map: item }] : [],
  );
}

interface Change {
  readonly slip: Slip;
  readonly sets: readonly (readonly [Path, unknown])[];
}

function mutant(source: string, index: number, { id }: Row, { slip, sets }: Change): Mutant {
  const document = parseDocument(source);
  for (const [path, value] of sets) document.setIn(['specs', index, ...path], value);
  const name = `${id} ${sets.map(([path, value]) => `${path.join('.')}: ${value}`).join(', ')}`;
  return { slip, name, text: String(document), rows: [index] };
}

/** The places of a row that hold an amount: its own, its stages, an interval's parts. What held before is not the value. */
function amountsOf({ map, kind }: Row): { readonly path: Path; readonly amount: YAMLMap; readonly kind: SimpleKind }[] {
  const below = (path: Path, of: SimpleKind) => {
    const amount = path.length === 0 ? map : map.getIn(path);
    return isMap(amount) ? [{ path, amount, kind: of }] : [];
  };
  if (kind === 'interval') return [...below(['distance'], 'distance'), ...below(['time'], 'time')];
  if (kind === 'torque-sequence') {
    const stages = map.get('stages');
    return isSeq(stages)
      ? stages.items.flatMap((_, index) => {
          const stage = below(['stages', index], 'torque');
          const unit = String(stage[0]?.amount.get('unit'));
          return unit === '°' || unit === 'turn' ? below(['stages', index], 'angle') : stage;
        })
      : [];
  }
  return (SIMPLE_KINDS as readonly string[]).includes(kind) ? below([], kind as SimpleKind) : [];
}

function* numbersOf(row: Row): Generator<Change> {
  for (const { path, amount } of amountsOf(row)) {
    for (const key of VALUES) {
      const value = amount.get(key);
      if (typeof value !== 'number' || value === 0) continue;
      const set = (slip: Slip, to: number): Change => ({ slip, sets: [[[...path, key], Number(to.toPrecision(12))]] });
      yield set('ten times', value * 10);
      yield set('a tenth', value / 10);
      yield set('sign turned', -value);
    }
    for (const key of TOLERANCES) {
      const value = amount.get(key);
      if (typeof value === 'number') yield { slip: 'tolerance doubled', sets: [[[...path, key], value * 2]] };
    }
    const [min, max] = [amount.get('min'), amount.get('max')];
    if (typeof min === 'number' && typeof max === 'number') {
      const half = (max - min) / 2;
      yield {
        slip: 'tolerance doubled',
        sets: [
          [[...path, 'min'], Number((min - half).toPrecision(12))],
          [[...path, 'max'], Number((max + half).toPrecision(12))],
        ],
      };
    }
  }
}

function* unitsSwapped(row: Row): Generator<Change> {
  for (const { path, amount, kind } of amountsOf(row))
    for (const { symbol } of unitsOf(kind))
      if (symbol !== amount.get('unit')) yield { slip: 'another unit', sets: [[[...path, 'unit'], symbol]] };
}

function* yearsShifted({ map }: Row): Generator<Change> {
  const span = /^(\d{4})-(\d{4})$/.exec(String(map.get('years') ?? ''));
  if (!span) return;
  const [from, to] = [Number(span[1]), Number(span[2])];
  for (const by of [-1, 1]) {
    yield { slip: 'year shifted', sets: [[['years'], `${from + by}-${to}`]] };
    yield { slip: 'year shifted', sets: [[['years'], `${from}-${to + by}`]] };
  }
}

/** Each two rows of one kind, each with the other's value. */
function exchanged(source: string, rows: readonly Row[]): Mutant[] {
  return rows.flatMap((row, index) =>
    rows.slice(index + 1).flatMap((other, after): Mutant[] => {
      if (other.kind !== row.kind) return [];
      const at = index + 1 + after;
      const document = parseDocument(source);
      for (const key of QUANTITY) {
        const [one, two] = [document.getIn(['specs', index, key], true), document.getIn(['specs', at, key], true)];
        for (const [place, value] of [
          [index, two],
          [at, one],
        ] as const)
          if (value === undefined) document.deleteIn(['specs', place, key]);
          else document.setIn(['specs', place, key], value);
      }
      return [
        { slip: 'rows exchanged', name: `${row.id} with ${other.id}`, text: String(document), rows: [index, at] },
      ];
    }),
  );
}
