import { ENGLISH, type Locale, wording } from '../locale/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';

/** The week a tyre was made in, Sunday to Saturday, YYYY-MM-DD. */
export interface WeekMade {
  readonly week: number;
  readonly year: number;
  readonly from: string;
  readonly to: string;
}

/**
 * The date code of a tyre, WWYY: week 1 is the first full calendar week of the year, Sunday to Saturday.
 *
 * @param code four digits; with three digits it is older than 2000 and its decade cannot be known
 * Source: 49 CFR 574.5(b)(3). This is not the week of ISO 8601.
 */
export function readDateCode(code: string, locale: Locale = ENGLISH): Parsed<WeekMade> {
  const { t } = wording(locale);
  const digits = code.replaceAll(/\s/g, '');
  if (/^\d{3}$/.test(digits))
    return fail(
      t('"{code}" has three digits: made before 2000, in a decade that the code does not tell', { code }),
      t('do not ride on a tyre that old, whatever it looks like'),
    );
  const match = /^(\d{2})(\d{2})$/.exec(digits);
  if (!match)
    return fail(t('"{code}" is not a date code', { code }), t('the code is the last four digits: week, then year'));
  const [week, year] = [Number(match[1]), 2000 + Number(match[2])];
  if (week < 1 || week > 53)
    return fail(t('there is no week {week}', { week: match[1] ?? '' }), t('weeks go from 01 to 53'));
  const newYear = Date.UTC(year, 0, 1);
  const firstSunday = newYear + ((7 - new Date(newYear).getUTCDay()) % 7) * 86_400_000;
  const day = (days: number) => new Date(firstSunday + days * 86_400_000).toISOString().slice(0, 10);
  return ok({ week, year, from: day((week - 1) * 7), to: day((week - 1) * 7 + 6) });
}
