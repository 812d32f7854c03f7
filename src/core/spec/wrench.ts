import { convert } from './convert.ts';
import type { Amount } from './kinds.ts';

/**
 * Setting of a torque wrench that pulls through an extension in line with it.
 *
 * @param torque wanted at the fastener, any unit
 * @param lever wrench from drive to the middle of the grip
 * @param extension length added in line, in the unit of the lever; negative when it points back
 * @returns setting, in the unit of the torque
 * @throws RangeError when the lengthened lever is not longer than zero
 * Source: moments about the fastener, T · L / (L + E).
 */
export function wrenchSetting(torque: number, lever: number, extension: number): number {
  if (!(lever > 0) || lever + extension <= 0) throw new RangeError('a lever is longer than zero');
  return (torque * lever) / (lever + extension);
}

/** Share of its scale from which a torque wrench is used. Source: ISO 6789 tests at 20, 60 and 100 % of the maximum. */
export const USABLE_FROM = 0.2;

/** The part of a wrench's scale that it is used in, in the unit of its range. */
export function usableRange({ min, max, unit }: Amount): { from: number; to: number; unit: string } | undefined {
  return max === undefined ? undefined : { from: Math.max(min ?? 0, max * USABLE_FROM), to: max, unit };
}

/** The single number of an amount in a unit: its nominal value, or its only limit. */
export function valueIn(amount: Amount, kind: 'torque' | 'length', unit: string): number | undefined {
  const value = amount.nominal ?? amount.min ?? amount.max;
  return value === undefined ? undefined : convert(value, kind, amount.unit, unit);
}
