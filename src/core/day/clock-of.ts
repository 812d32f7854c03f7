import { secondsOfDay } from '../fit/index.ts';
import { twoDigits } from '../time/index.ts';
import type { DaySheet } from './day-sheet.ts';

/** The time of day of a moment of the class, `hh:mm`; a broken minute is rounded down. */
export function clockOf({ shopClass }: Pick<DaySheet, 'shopClass'>, moment: number): string {
  const minutes = Math.floor((secondsOfDay(shopClass.starts) + moment + 1e-6) / 60);
  const ofDay = ((minutes % 1440) + 1440) % 1440;
  return `${twoDigits(Math.floor(ofDay / 60))}:${twoDigits(ofDay % 60)}`;
}
