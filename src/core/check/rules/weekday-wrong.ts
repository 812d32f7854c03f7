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
    const languages = [...new Set(['en', ...[info.language, ...(info.languages ?? [])].map(languageOf)])];
    for (const shopClass of classes) {
      const { title, date } = shopClass;
      const said = saidInstead(title, new Date(`${date}T00:00:00Z`), languages);
      if (said !== undefined)
        yield {
          place: placeOf(shopClass, 'date'),
          message: `${date} is ${said.is}, the title says ${said.said}`,
          help: 'set the date, or the title, to the day that is meant',
          see: { place: placeOf(shopClass, 'title'), note: 'the title' },
        };
    }
  },
});

const WEEK = [0, 1, 2, 3, 4, 5, 6];
const YEAR = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];

/** What a title says of the day, where that is not the day; nothing where it says it, or says nothing of it. */
function saidInstead(
  title: string,
  day: Date,
  languages: readonly string[],
): { readonly is: string; readonly said: string } | undefined {
  const named = languages.flatMap((language) =>
    WEEK.flatMap((each) => (namesWeekday(title, each, language) ? [{ each, language }] : [])),
  );
  const weekdayIs = day.getUTCDay();
  const [first] = named;
  if (first && !named.some(({ each }) => each === weekdayIs))
    return { is: `a ${weekday(weekdayIs, 'en', 'long')}`, said: weekday(first.each, first.language, 'long') };
  const days = languages.flatMap((language) => daysNamed(title, language));
  const [wrong] = days;
  if (!wrong || days.some(({ month, date }) => month === day.getUTCMonth() && date === day.getUTCDate()))
    return undefined;
  return { is: `${day.getUTCDate()} ${monthName(day.getUTCMonth(), 'en', 'long')}`, said: wrong.written };
}

type Width = 'long' | 'short';

/** Name of a day of the week, 0 is Sunday. The first Sunday of 1970 was the fourth of January. */
function weekday(day: number, language: string, width: Width): string {
  const name = new Intl.DateTimeFormat(language, { weekday: width, timeZone: 'UTC' });
  return name.format(Date.UTC(1970, 0, 4 + day));
}

/** Name of a month, 0 is January, as it stands in a date. */
function monthName(month: number, language: string, width: Width): string {
  const date = new Intl.DateTimeFormat(language, { month: width, day: 'numeric', timeZone: 'UTC' });
  return date.formatToParts(Date.UTC(1970, month, 1)).find(({ type }) => type === 'month')?.value ?? '';
}

/** The day's name as a word, or with an s: `on Saturdays`; its short form only before a day of the month, for the sun shines. */
function namesWeekday(title: string, day: number, language: string): boolean {
  const short = bare(weekday(day, language, 'short'));
  return (
    matches(title, `(?<!\\p{L})${weekday(day, language, 'long')}s?(?!\\p{L})`).length > 0 ||
    matches(title, `(?<!\\p{L})${short}\\.?,? (?=\\d{1,2}(?!\\d))`).length > 0
  );
}

/** Days of the year that a title names: `6 March`, `March 6th`, `6. März`, `6 de marzo`. */
function daysNamed(
  title: string,
  language: string,
): { readonly month: number; readonly date: number; readonly written: string }[] {
  return YEAR.flatMap((month) => {
    const names = [monthName(month, language, 'long'), bare(monthName(month, language, 'short'))];
    // A language that writes its months with a capital means another word without: may, march.
    const flags = names.every((one) => /^\p{Lu}/u.test(one)) ? 'gu' : 'giu';
    const name = `(?:${[...new Set(names)].join('|')})`;
    const before = `(?<!\\d)(\\d{1,2})(?:\\.|º|st|nd|rd|th)?(?: of| de)? ${name}(?!\\p{L})`;
    const after = `(?<!\\p{L})${name}\\.? (\\d{1,2})(?:st|nd|rd|th)?(?!\\d)`;
    return [before, after].flatMap((pattern) =>
      matches(title, pattern, flags).map(([written, date]) => ({ month, date: Number(date), written })),
    );
  });
}

function matches(text: string, pattern: string, flags = 'giu'): RegExpMatchArray[] {
  return [...text.matchAll(new RegExp(pattern, flags))];
}

/** Without the point that some languages set behind what is shortened. */
function bare(name: string): string {
  return name.replace(/\.$/, '');
}

/** The shop's language, where it is a tag that can be used. */
function languageOf(tag: string | undefined): string {
  try {
    return Intl.getCanonicalLocales(tag)[0] ?? 'en';
  } catch {
    return 'en';
  }
}
