import { twoDigits } from '../../core/time/index.ts';

/** The day it is where the attendee is, YYYY-MM-DD. */
export function today(): string {
  const now = new Date();
  return `${now.getFullYear()}-${twoDigits(now.getMonth() + 1)}-${twoDigits(now.getDate())}`;
}
