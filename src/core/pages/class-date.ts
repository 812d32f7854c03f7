import type { ShopClass } from '../model/index.ts';
import { twoDigits } from '../time/index.ts';

/** The language that dates are written in: of English the kind that the pages are in, day before month. */
export function dateLanguage(language: string): string {
  return language === 'en' ? 'en-GB' : language;
}

/** When a class is, in words of the shop's language and in its own time of day. */
export function classDate(
  { date, starts, slot }: ShopClass,
  language = 'en',
): { day: string; from: string; to: string } {
  const day = new Intl.DateTimeFormat(dateLanguage(language), {
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
