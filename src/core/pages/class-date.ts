import { dateTag, type Locale } from '../locale/index.ts';
import type { ShopClass } from '../model/index.ts';
import { twoDigits } from '../time/index.ts';

/** When a class is, in words of the language and in its own time of day. */
export function classDate(
  { date, starts, slot }: ShopClass,
  locale: Locale,
): { day: string; from: string; to: string } {
  const day = new Intl.DateTimeFormat(dateTag(locale), {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    year: 'numeric',
    timeZone: 'UTC',
  }).format(new Date(`${date}T00:00:00Z`));
  return { day, from: starts, to: laterBy(starts, slot) };
}

/** A time of day `hh:mm` so many hours and minutes later; past midnight it starts again. */
function laterBy(clock: string, slot: string): string {
  const minutes = (text: string) => text.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);
  return clockOfDay(minutes(clock) + minutes(slot));
}

/** Minutes since midnight as `hh:mm`. */
function clockOfDay(minutes: number): string {
  const whole = Math.round(minutes);
  return `${twoDigits(Math.floor(whole / 60) % 24)}:${twoDigits(whole % 60)}`;
}
