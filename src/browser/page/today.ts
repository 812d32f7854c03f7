import { isoDay } from '../../core/time/index.ts';

/** The day it is where the attendee is, YYYY-MM-DD. */
export function today(): string {
  return isoDay(new Date());
}
