import { twoDigits } from './clock-time.ts';

/** The local calendar day, YYYY-MM-DD. */
export function isoDay(moment: Date): string {
  return `${moment.getFullYear()}-${twoDigits(moment.getMonth() + 1)}-${twoDigits(moment.getDate())}`;
}
