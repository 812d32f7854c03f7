import { convert, lastFigure, likelySlip, type Part, type UnitSlip, unitsCompare } from '../spec/index.ts';
import type { HeardQuantity } from './heard-quantity.ts';

const CALENDAR = new Set(['day', 'week', 'month', 'year']);

/** True where a heard quantity says something about the part at all. */
export function isComparable({ kind, unit }: Pick<HeardQuantity, 'kind' | 'unit'>, part: Part): boolean {
  if (kind !== part.kind || !unitsCompare(part.kind, unit, part.amount.unit)) return false;
  return kind !== 'time' || CALENDAR.has(unit) === CALENDAR.has(part.amount.unit);
}

/**
 * True where a spoken quantity agrees with a row's: inside its limits or at its nominal value, in any unit the words
 * may stand for, to half of the last figure spoken.
 */
export function agrees(heard: HeardQuantity, part: Part): boolean {
  return heard.readings.some((unit) => {
    const said = [heard.nominal ?? heard.min, heard.nominal ?? heard.max].filter((value) => value !== undefined);
    return said.every((value) => {
      const within = (half: number) =>
        convert(value + half * 10 ** lastFigure(value), unit.kind, unit.symbol, part.amount.unit);
      const { nominal, min, max } = part.amount;
      const [least, most] = [
        min ?? (max === undefined ? nominal : -Infinity),
        max ?? (min === undefined ? nominal : Infinity),
      ];
      return within(0.5) >= (least ?? -Infinity) && within(-0.5) <= (most ?? Infinity);
    });
  });
}

/** How far a spoken value lies from a part. */
export interface Difference {
  readonly part: Part;
  /** In the part's unit; how far past the nearest limit or nominal value. */
  readonly off: number;
  readonly slip?: UnitSlip;
}

/**
 * The distance of a spoken quantity from a part, in the part's unit, with no figure more than the row's own numbers have;
 * nothing when they cannot be compared. Of a spoken range that end counts which lies further outside.
 */
export function difference(heard: HeardQuantity, part: Part): Difference | undefined {
  const [unit] = heard.readings;
  const value = heard.nominal ?? heard.max ?? heard.min;
  if (!unit || value === undefined || !isComparable(heard, part)) return undefined;
  const { amount, kind } = part;
  const inUnit = (number: number) => convert(number, kind, unit.symbol, amount.unit);
  const { nominal, min, max } = amount;
  const [low, high] = [min ?? nominal ?? max ?? 0, max ?? nominal ?? min ?? 0];
  const ends =
    heard.nominal === undefined ? [heard.max, heard.min].filter((end) => end !== undefined) : [heard.nominal];
  const [off = 0] = ends
    .map(inUnit)
    .map((own) => (own < low ? own - low : own > high ? own - high : 0))
    .toSorted((a, b) => Math.abs(b) - Math.abs(a));
  const figures = Math.min(0, ...[nominal, min, max, ...(unit.symbol === amount.unit ? ends : [])].map(placeOf));
  const slip = likelySlip(inUnit(value), nominal ?? (low + high) / 2, kind, 0.03);
  return { part, off: toPlace(off, figures), ...(slip ? { slip } : {}) };
}

const placeOf = (value: number | undefined) => (value === undefined ? 0 : lastFigure(value));

/** Rounded to a power of ten; what would come to nought keeps one figure. */
function toPlace(value: number, place: number): number {
  const rounded = Number(value.toFixed(-place));
  return rounded === 0 && value !== 0 ? Number(value.toPrecision(1)) : rounded;
}
