import { agrees, type HeardQuantity, isComparable } from '../heard/index.ts';
import { convert, lastFigure, type Part } from '../spec/index.ts';

/** So far a rounded figure lies from the exact one, as a share. */
const ROUNDED = 0.01;

/**
 * True where a quantity somebody types stands for a part's value: inside its limits or tolerance; where only one side is
 * limited, from the nominal value to the limit. Else every length would match "at most 322 mm".
 */
export function isMeant(heard: HeardQuantity, part: Part): boolean {
  if (!isComparable(heard, part)) return false;
  const { nominal, min, max, unit } = part.amount;
  if (min !== undefined && max !== undefined) return agrees(heard, part);
  // `500 miles` for 800 km: a value without a tolerance is known as people round it.
  if (min === undefined && max === undefined) return distanceFrom(heard, part) <= ROUNDED;
  const bounds = [min, nominal, max].filter((value) => value !== undefined);
  const narrow = { min: Math.min(...bounds), max: Math.max(...bounds), unit };
  return agrees(heard, { ...part, amount: narrow });
}

/** How far a quantity lies from the middle of a part, as a share of it; for putting the nearest first. */
export function distanceFrom(heard: HeardQuantity, part: Part): number {
  const value = heard.nominal ?? heard.max ?? heard.min;
  const [unit] = heard.readings;
  const { nominal, min, max } = part.amount;
  const middle = nominal ?? ((min ?? max ?? 0) + (max ?? min ?? 0)) / 2;
  if (value === undefined || !unit || !isComparable(heard, part)) return Infinity;
  const own = convert(value, unit.kind, unit.symbol, part.amount.unit);
  return Math.abs(own - middle) / Math.max(Math.abs(middle), 10 ** lastFigure(middle));
}
