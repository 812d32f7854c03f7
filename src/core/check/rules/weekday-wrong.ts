import { placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'weekday-wrong',
  severity: 'error',
  why: 'People stand before a closed door, or the door stands open and nobody comes.',
  bad: replaceIn('classes/saturday.yaml', '2026-12-05', '2026-12-06'),
  says: '2:7 2026-12-06 is a Sunday, the title says Saturday',
  good: SOUND,

  *check({ classes, info }) {
    for (const shopClass of classes) {
      const { title, date } = shopClass;
      const languages = [...new Set(['en', ...[info.language, ...(info.languages ?? [])].map(languageOf)])];
      const named = languages.flatMap((language) =>
        WEEK.flatMap((day) => (mentions(title, weekday(day, language)) ? [{ day, language }] : [])),
      );
      const real = new Date(`${date}T00:00:00Z`).getUTCDay();
      const [first] = named;
      if (!first || named.some(({ day }) => day === real)) continue;
      yield {
        place: placeOf(shopClass, 'date'),
        message: `${date} is a ${weekday(real, 'en')}, the title says ${weekday(first.day, first.language)}`,
        help: 'set the date, or the title, to the day that is meant',
        see: { place: placeOf(shopClass, 'title'), note: 'the title' },
      };
    }
  },
});

const WEEK = [0, 1, 2, 3, 4, 5, 6];

/** Name of a day of the week, 0 is Sunday. The first Sunday of 1970 was the fourth of January. */
function weekday(day: number, language: string): string {
  const name = new Intl.DateTimeFormat(language, { weekday: 'long', timeZone: 'UTC' });
  return name.format(Date.UTC(1970, 0, 4 + day));
}

/** The day's name as a word, or with an s: `on Saturdays`. */
function mentions(title: string, day: string): boolean {
  return new RegExp(`(?<!\\p{L})${day}s?(?!\\p{L})`, 'iu').test(title);
}

/** The shop's language, where it is a tag that can be used. */
function languageOf(tag: string | undefined): string {
  try {
    return Intl.getCanonicalLocales(tag)[0] ?? 'en';
  } catch {
    return 'en';
  }
}
