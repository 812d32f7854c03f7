import { convert } from './convert.ts';
import { EXAMPLE, readDesignation } from './designation.ts';
import { exact, minus, plus, toNumber } from './exact.ts';
import { findUnit, kindInWords, type UnitFault } from './find-unit.ts';
import type { Amount, Kind, Quantity, SimpleKind } from './kinds.ts';

/** A number with tolerance as a content file writes it. */
export interface AmountText {
  readonly nominal?: number | undefined;
  readonly plusMinus?: number | undefined;
  readonly plus?: number | undefined;
  readonly minus?: number | undefined;
  readonly min?: number | undefined;
  readonly max?: number | undefined;
  readonly unit?: string | undefined;
}

/** The quantity of a row as the spec table writes it. */
export interface QuantityText extends AmountText {
  readonly kind: Kind;
  readonly stages?: readonly AmountText[] | undefined;
  readonly distance?: AmountText | undefined;
  readonly time?: AmountText | undefined;
  readonly under?: AmountText | undefined;
  readonly designation?: string | undefined;
}

/** Rule ids of what can be wrong with a written quantity. */
export type QuantityFault =
  | 'unit-missing'
  | UnitFault
  | 'min-above-max'
  | 'nominal-outside-limits'
  | 'tolerance-without-nominal'
  | 'tolerance-written-twice'
  | 'value-missing'
  | 'value-impossible'
  | 'field-of-other-kind';

/** One thing wrong with a written quantity, and at which key. */
export interface QuantityProblem {
  readonly fault: QuantityFault;
  /** Keys and list positions below the row, such as `['stages', 1, 'unit']`. */
  readonly path: readonly (string | number)[];
  readonly problem: string;
  readonly help: string;
}

export interface QuantityRead {
  /** Absent as soon as there is a problem. */
  readonly quantity?: Quantity;
  readonly problems: readonly QuantityProblem[];
}

export interface AmountRead {
  readonly amount?: Amount;
  readonly problems: readonly QuantityProblem[];
}

type Path = readonly (string | number)[];
const LIMITS = ['nominal', 'plusMinus', 'plus', 'minus', 'min', 'max'] as const;

/**
 * The quantity of a row, or everything that is wrong with it.
 *
 * @param row kind, numbers and units as written; other keys are ignored
 */
export function readQuantity(row: QuantityText): QuantityRead {
  const { kind } = row;
  switch (kind) {
    case 'torque-sequence': {
      const astray = fieldsAstray(row, ['stages']);
      const stages = (row.stages ?? []).map((stage, index) => readStage(stage, ['stages', index]));
      const missing = row.stages
        ? []
        : [
            fault(
              'value-missing',
              [],
              'a torque sequence has no stages',
              'list them under stages: torque, or angle, each with its unit',
            ),
          ];
      return together([...astray, ...missing], stages, (amounts) => ({ kind, stages: amounts }));
    }
    case 'interval': {
      const astray = fieldsAstray(row, ['distance', 'time']);
      const missing =
        row.distance || row.time
          ? []
          : [fault('value-missing', [], 'an interval has neither distance nor time', 'give distance, time, or both')];
      const distance = row.distance && readAmount(row.distance, 'distance', ['distance']);
      const time = row.time && readAmount(row.time, 'time', ['time']);
      const parts = [distance, time].filter((part) => part !== undefined);
      return together([...astray, ...missing], parts, () => ({
        kind,
        ...(distance?.amount ? { distance: distance.amount } : {}),
        ...(time?.amount ? { time: time.amount } : {}),
      }));
    }
    case 'thread':
    case 'viscosity-grade': {
      const astray = fieldsAstray(row, ['designation']);
      if (row.designation === undefined)
        return {
          problems: [
            ...astray,
            fault(
              'value-missing',
              [],
              `a ${kindInWords(kind)} has no designation`,
              `write designation: ${EXAMPLE[kind]}`,
            ),
          ],
        };
      const read = readDesignation(row.designation, kind);
      const problems = read.ok
        ? astray
        : [...astray, fault('value-impossible', ['designation'], read.problem, read.help)];
      return read.ok && problems.length === 0
        ? { quantity: { kind, designation: read.value }, problems }
        : { problems };
    }
    default: {
      const astray = fieldsAstray(row, kind === 'length' ? [...LIMITS, 'unit', 'under'] : [...LIMITS, 'unit']);
      const amount = readAmount(row, kind, []);
      const under = row.under && readAmount(row.under, 'force', ['under']);
      return together(astray, under ? [amount, under] : [amount], ([first = { unit: '' }]) => ({
        kind,
        amount: first,
        ...(under?.amount ? { under: under.amount } : {}),
      }));
    }
  }
}

/**
 * A number with tolerance, or everything that is wrong with it. Limits are computed without rounding error.
 *
 * @param kinds what it may measure; its unit decides between several
 * @param path where it stands below the row
 */
export function readAmount(written: AmountText, kinds: SimpleKind | readonly SimpleKind[], path: Path): AmountRead {
  const problems: QuantityProblem[] = [];
  const unit = readUnit(written, typeof kinds === 'string' ? [kinds] : kinds, path);
  if (!unit.ok) problems.push(unit.fault);
  problems.push(...faultsOfNumbers(written, path));
  if (unit.ok) problems.push(...belowNought(written, unit.kind, path));
  if (!unit.ok || problems.length > 0) return { problems };
  const { nominal } = written;
  const up = written.plusMinus ?? written.plus;
  const down = written.plusMinus ?? written.minus;
  const bounded = written.plus !== undefined || written.minus !== undefined;
  const min = nominal !== undefined && (down !== undefined || bounded) ? sum(nominal, -(down ?? 0)) : written.min;
  const max = nominal !== undefined && (up !== undefined || bounded) ? sum(nominal, up ?? 0) : written.max;
  const amount: Amount = {
    ...(nominal === undefined ? {} : { nominal }),
    ...(min === undefined ? {} : { min }),
    ...(max === undefined ? {} : { max }),
    unit: unit.symbol,
  };
  const beyond = beyondNature(amount, unit.kind, written, path) ?? beyondScale(amount, unit.kind, written, path);
  return beyond ? { problems: [beyond] } : { amount, problems };
}

function readStage(stage: AmountText, path: Path): AmountRead {
  return readAmount(stage, ['torque', 'angle'], path);
}

function sum(a: number, b: number): number {
  return toNumber(b < 0 ? minus(exact(a), exact(-b)) : plus(exact(a), exact(b)));
}

function together(
  astray: readonly QuantityProblem[],
  parts: readonly AmountRead[],
  build: (amounts: readonly Amount[]) => Quantity,
): QuantityRead {
  const problems = [...astray, ...parts.flatMap((part) => part.problems)];
  const amounts = parts.flatMap((part) => (part.amount ? [part.amount] : []));
  return problems.length > 0 ? { problems } : { quantity: build(amounts), problems };
}

function fault(what: QuantityFault, path: Path, problem: string, help: string): QuantityProblem {
  return { fault: what, path, problem, help };
}

/** Keys that belong to another kind of quantity. */
function fieldsAstray(row: QuantityText, own: readonly string[]): QuantityProblem[] {
  const all = [...LIMITS, 'unit', 'stages', 'distance', 'time', 'under', 'designation'] as const;
  return all
    .filter((key) => row[key] !== undefined && !own.includes(key))
    .map((key) =>
      fault(
        'field-of-other-kind',
        [key],
        `${key} does not belong to kind ${row.kind}`,
        `a row of kind ${row.kind} has ${own.join(', ')}`,
      ),
    );
}

/** Kinds of which none at all is nothing to aim at. */
const NEVER_NOUGHT = new Set<SimpleKind>([
  'torque',
  'force',
  'volume',
  'mass',
  'time',
  'distance',
  'turning-speed',
  'ratio',
  'charge',
  'power',
  'flow',
  'count',
]);
const MAY_BE_NEGATIVE = new Set<SimpleKind>([
  'length',
  'temperature',
  'temperature-difference',
  'angle',
  'voltage',
  'current',
]);

function belowNought(written: AmountText, kind: SimpleKind, path: Path): QuantityProblem[] {
  if (MAY_BE_NEGATIVE.has(kind)) return [];
  return (['nominal', 'min', 'max'] as const)
    .filter((key) => (written[key] ?? 0) < 0 || (key === 'nominal' && written[key] === 0 && NEVER_NOUGHT.has(kind)))
    .map((key) =>
      fault(
        'value-impossible',
        [...path, key],
        `a ${kindInWords(kind)} of ${written[key]}`,
        'a value above nought is wanted',
      ),
    );
}

/** Source: the Celsius temperature is the thermodynamic one less 273.15 K (SI Brochure, 9th edition, 2.3.1). */
const ABSOLUTE_ZERO = -273.15;

/** A tolerance that reaches below nought, or a temperature below the lowest there is. */
function beyondNature(amount: Amount, kind: SimpleKind, written: AmountText, path: Path): QuantityProblem | undefined {
  const lowest = Math.min(...[amount.nominal, amount.min, amount.max].filter((value) => value !== undefined));
  const tolerance = (['plusMinus', 'minus'] as const).find((key) => written[key] !== undefined);
  const key = tolerance ?? (['min', 'nominal', 'max'] as const).find((each) => written[each] === lowest) ?? 'nominal';
  const cold = kind === 'temperature' && convert(lowest, kind, amount.unit, '°C') < ABSOLUTE_ZERO;
  if (!cold && (lowest >= 0 || MAY_BE_NEGATIVE.has(kind))) return undefined;
  const help = cold ? 'no temperature is below −273.15 °C' : 'a tolerance smaller than the value is wanted';
  return fault('value-impossible', [...path, key], `a ${kindInWords(kind)} of ${lowest} ${amount.unit}`, help);
}

/**
 * Where a hardness scale is defined, least and most. Sources: ISO 6508-1:2016, table 1 (HRBW 10 to 100, HRC 20 to 70);
 * ISO 6506-1:2014, 1 (HBW up to 650); ISO 868:2003 (Shore A and D, 0 to 100). From memory.
 */
const SCALE_ENDS: Readonly<Record<string, readonly [number, number]>> = {
  HRC: [20, 70],
  HRB: [10, 100],
  HBW: [0, 650],
  'Shore A': [0, 100],
  'Shore D': [0, 100],
};

/** A hardness off its scale, half a tooth. */
function beyondScale(amount: Amount, kind: SimpleKind, written: AmountText, path: Path): QuantityProblem | undefined {
  const values = [amount.nominal, amount.min, amount.max].filter((value) => value !== undefined);
  const key = LIMITS.find((each) => written[each] !== undefined) ?? 'nominal';
  if (kind === 'count' && values.some((value) => !Number.isInteger(value)))
    return fault('value-impossible', [...path, key], `${values.join(', ')} ${amount.unit}`, 'a whole number is wanted');
  const [least, most] = (kind === 'hardness' ? SCALE_ENDS[amount.unit] : undefined) ?? [-Infinity, Infinity];
  const off = values.find((value) => value < least || value > most);
  return off === undefined
    ? undefined
    : fault(
        'value-impossible',
        [...path, key],
        `a hardness of ${off} ${amount.unit}`,
        `the scale ${amount.unit} is defined from ${least} to ${most}`,
      );
}

type UnitRead =
  | { readonly ok: true; readonly symbol: string; readonly kind: SimpleKind }
  | { readonly ok: false; readonly fault: QuantityProblem };

function readUnit({ unit }: AmountText, kinds: readonly SimpleKind[], path: Path): UnitRead {
  const names = kinds.map(kindInWords).join(' or ');
  if (unit === undefined)
    return { ok: false, fault: fault('unit-missing', path, `the ${names} has no unit`, 'give one, such as unit: N·m') };
  const tries = kinds.map((kind) => findUnit(unit, kind));
  const found = tries.find((each) => each.ok);
  if (found?.ok) return { ok: true, symbol: found.value.symbol, kind: found.value.kind };
  const [first] = tries;
  if (!first || first.ok) throw new RangeError('a quantity has a kind');
  return { ok: false, fault: fault(first.fault, [...path, 'unit'], first.problem, first.help) };
}

function faultsOfNumbers(written: AmountText, path: Path): QuantityProblem[] {
  const { nominal, plusMinus, min, max } = written;
  const given = LIMITS.filter((key) => written[key] !== undefined);
  const faults = given
    .filter((key) => !Number.isFinite(written[key]))
    .map((key) => fault('value-impossible', [...path, key], `${key} is ${written[key]}`, 'a plain number is wanted'));
  if (faults.length > 0) return faults;
  if (nominal === undefined && min === undefined && max === undefined)
    return [
      given.length > 0
        ? fault(
            'tolerance-without-nominal',
            [...path, given[0] ?? ''],
            'a tolerance has no nominal value',
            'give nominal too, or min and max instead',
          )
        : fault('value-missing', path, 'the quantity has no number', 'give nominal, or min, or max, or min and max'),
    ];
  const tolerances = (['plusMinus', 'plus', 'minus'] as const).filter((key) => written[key] !== undefined);
  const [tolerance] = tolerances;
  if (tolerance && nominal === undefined)
    return [
      fault(
        'tolerance-without-nominal',
        [...path, tolerance],
        'a tolerance has no nominal value',
        'give nominal too, or only min and max',
      ),
    ];
  if (tolerance && (min !== undefined || max !== undefined || (plusMinus !== undefined && tolerances.length > 1)))
    return [
      fault(
        'tolerance-written-twice',
        [...path, tolerance],
        'the tolerance is written in two ways',
        'keep one: plusMinus, or plus and minus, or min and max',
      ),
    ];
  if (min !== undefined && max !== undefined && min > max)
    return [
      fault(
        'min-above-max',
        [...path, 'min'],
        `min ${min} is above max ${max}`,
        'exchange them, or mend the wrong one',
      ),
    ];
  if (nominal !== undefined && ((min !== undefined && nominal < min) || (max !== undefined && nominal > max)))
    return [
      fault(
        'nominal-outside-limits',
        [...path, 'nominal'],
        `nominal ${nominal} lies outside ${min ?? '…'} to ${max ?? '…'}`,
        'mend the value that is wrong',
      ),
    ];
  return [];
}
