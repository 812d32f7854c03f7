import { convert } from './convert.ts';
import type { Amount } from './kinds.ts';

/** What is left of an interval; negative when it is overdue. Whichever side ends first counts. */
export interface Due {
  /** In the unit of the interval's distance. */
  readonly distanceLeft?: number;
  readonly daysLeft?: number;
  /** YYYY-MM-DD, where the interval has a time. */
  readonly dueOn?: string;
  readonly due: boolean;
}

/**
 * When a job comes due again.
 *
 * @param since odometer and day of the last time, in the unit of the interval's distance and as YYYY-MM-DD
 * @param now odometer and day
 */
export function intervalDue(
  interval: { readonly distance?: Amount; readonly time?: Amount },
  since: { readonly odometer: number; readonly day: string },
  now: { readonly odometer: number; readonly day: string },
): Due {
  const distance = usualValue(interval.distance);
  const distanceLeft = distance === undefined ? undefined : since.odometer + distance - now.odometer;
  const time = usualValue(interval.time);
  const dueOn = interval.time && time !== undefined ? dayAfter(since.day, time, interval.time.unit) : undefined;
  const daysLeft = dueOn === undefined ? undefined : daysBetween(now.day, dueOn);
  return {
    ...(distanceLeft === undefined ? {} : { distanceLeft }),
    ...(daysLeft === undefined ? {} : { daysLeft }),
    ...(dueOn === undefined ? {} : { dueOn }),
    due: (distanceLeft !== undefined && distanceLeft <= 0) || (daysLeft !== undefined && daysLeft <= 0),
  };
}

function usualValue(amount: Amount | undefined): number | undefined {
  return amount && (amount.max ?? amount.nominal ?? amount.min);
}

/** A day so much later: months and years by the calendar, at most the last day of the month. */
function dayAfter(day: string, value: number, unit: string): string {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  const iso = (at: number) => new Date(at).toISOString().slice(0, 10);
  if (unit !== 'month' && unit !== 'year')
    return iso(Date.UTC(year, month - 1, date + Math.round(convert(value, 'time', unit, 'day'))));
  const months = Math.round(value * (unit === 'year' ? 12 : 1));
  const last = new Date(Date.UTC(year, month + months, 0)).getUTCDate();
  return iso(Date.UTC(year, month - 1 + months, Math.min(date, last)));
}

function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000);
}
