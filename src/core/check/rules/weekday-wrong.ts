import { placeOf } from '../../model/index.ts';
import { must } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';

export default rule({
  id: 'weekday-wrong',
  severity: 'error',
  why: 'People stand before a closed door, or the door stands open and nobody comes.',
  bad: replaceIn('classes/saturday.yaml', '2026-12-05', '2026-12-06'),
  says: '2:7 2026-12-06 is a Sunday, the title says Saturday',
  good: SOUND,

  *around({ classes, info }) {
    if (classes.length === 0) return;
    const tags = new Set([info.language, ...(info.languages ?? [])].map(languageOf));
    const english = dayNames('en');
    const languages = [english, ...[...tags].filter((tag) => tag !== 'en').map(dayNames)];
    for (const shopClass of classes) {
      const { title, date } = shopClass;
      const said = saidInstead(title, new Date(`${date}T00:00:00Z`), languages, english);
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

/** How a language names the days of a week and of a year. */
interface DayNames {
  /** From Sunday on. */
  readonly weekdays: readonly { readonly name: string; readonly said: RegExp }[];
  /** From January on, each with the ways to say a day of it. */
  readonly months: readonly { readonly name: string; readonly said: readonly RegExp[] }[];
}

/**
 * What a title says of the day, where that is not the day; nothing where it says it, or says nothing of it.
 *
 * @param languages in which titles may be written, and the names that findings say
 */
function saidInstead(
  title: string,
  day: Date,
  languages: readonly DayNames[],
  { weekdays, months }: DayNames,
): { readonly is: string; readonly said: string } | undefined {
  const named = languages.flatMap((names) =>
    names.weekdays.flatMap(({ name, said }, weekday) => (said.test(title) ? [{ name, weekday }] : [])),
  );
  const [first] = named;
  if (first && !named.some(({ weekday }) => weekday === day.getUTCDay()))
    return { is: `a ${must(weekdays[day.getUTCDay()], 'a weekday').name}`, said: first.name };
  const days = languages.flatMap((names) =>
    names.months.flatMap(({ said }, month) =>
      said
        .flatMap((way) => [...title.matchAll(way)])
        .map(([written, date]) => ({ month, date: Number(date), written })),
    ),
  );
  const [wrong] = days;
  if (!wrong || days.some(({ month, date }) => month === day.getUTCMonth() && date === day.getUTCDate()))
    return undefined;
  return { is: `${day.getUTCDate()} ${must(months[day.getUTCMonth()], 'a month').name}`, said: wrong.written };
}

/** Formats take long to make, so each language is asked once a check. */
function dayNames(language: string): DayNames {
  const weekdaysIn = (width: 'long' | 'short') => {
    const format = new Intl.DateTimeFormat(language, { weekday: width, timeZone: 'UTC' });
    // The first Sunday of 1970 was the fourth of January.
    return Array.from({ length: 7 }, (_, day) => format.format(Date.UTC(1970, 0, 4 + day)));
  };
  const monthsIn = (width: 'long' | 'short') => {
    // As the month stands in a date.
    const format = new Intl.DateTimeFormat(language, { month: width, day: 'numeric', timeZone: 'UTC' });
    const nameOf = (month: number) =>
      format.formatToParts(Date.UTC(1970, month, 1)).find(({ type }) => type === 'month');
    return Array.from({ length: 12 }, (_, month) => nameOf(month)?.value ?? '');
  };
  const [short, shortMonths] = [weekdaysIn('short').map(bare), monthsIn('short').map(bare)];
  return {
    weekdays: weekdaysIn('long').map((name, day) => ({ name, said: weekdaySaid(name, short[day] ?? name) })),
    months: monthsIn('long').map((name, month) => ({ name, said: daySaid([name, shortMonths[month] ?? name]) })),
  };
}

/** The day's name as a word, or with an s: `on Saturdays`; its short form only before a day of the month, for the sun shines. */
function weekdaySaid(name: string, short: string): RegExp {
  return new RegExp(`(?<!\\p{L})(?:${name}s?(?!\\p{L})|${short}\\.?,? (?=\\d{1,2}(?!\\d)))`, 'iu');
}

/** `6 March`, `March 6th`, `6. März`, `6 de marzo`. */
function daySaid(names: readonly string[]): RegExp[] {
  // A language that writes its months with a capital means another word without: may, march.
  const flags = names.every((one) => /^\p{Lu}/u.test(one)) ? 'gu' : 'giu';
  const name = `(?:${[...new Set(names)].join('|')})`;
  const before = `(?<!\\d)(\\d{1,2})(?:\\.|º|st|nd|rd|th)?(?: of| de)? ${name}(?!\\p{L})`;
  const after = `(?<!\\p{L})${name}\\.? (\\d{1,2})(?:st|nd|rd|th)?(?!\\d)`;
  return [before, after].map((pattern) => new RegExp(pattern, flags));
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
