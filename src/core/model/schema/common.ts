import { z } from 'zod';
import { outsideReason } from '../inside.ts';

/** Ids name files and rows, stand in addresses, and are cited: small letters, digits, hyphens. */
export const id = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'an id is small letters, digits and single hyphens, such as rear-axle-nut')
  .meta({ description: 'Small letters, digits, hyphens' });

export const text = z.string().trim().min(1, 'the text is empty');

/** A file that content names: a path below the content folder. */
export const contentFile = text
  .superRefine((name, issues) => {
    const reason = outsideReason(name);
    if (reason !== undefined) issues.addIssue(`${name} does not lie in the content folder: ${reason}`);
  })
  .meta({ description: 'Path relative to the content folder, with /' });

/** A moment: `h:mm:ss(.fraction)` or timecode. Kept as written here; read into ticks where the frame rate is known. */
export const moment = z
  .string('a time is a text in quotes, such as "0:03:10"')
  .meta({ description: 'h:mm:ss(.fraction), or timecode hh:mm:ss:ff, hh:mm:ss;ff when drop-frame' });

/** A calendar day as ISO 8601 writes it. */
export const day = z.iso.date('a date reads YYYY-MM-DD, such as 2026-12-05').meta({ description: 'YYYY-MM-DD' });

/** A time of day in 24 hours. */
export const clock = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day reads hh:mm in 24 hours, such as "10:00"')
  .meta({ description: 'hh:mm, 24 hours' });

/** A length of time in hours and minutes. */
export const hoursMinutes = z
  .string('a length of time is a text in quotes, such as "2:00"')
  .regex(/^\d{1,2}:[0-5]\d$/, 'a length of time reads h:mm, such as "2:00" for two hours')
  .meta({ description: 'h:mm' });

const YEARS_READ = 'years read 2021, 2019-2025, 2022- or -2021, with a plain hyphen';

/** Model years: one year, a closed span, or open to either side. YAML takes a bare `-2021` for a number below zero. */
export const years = z
  .union(
    [
      z.number().int().min(1885).max(2100),
      z.number().int().min(-2100).max(-1885),
      z.string().regex(/^(\d{4})?-(\d{4})?$|^\d{4}$/, YEARS_READ),
    ],
    { error: YEARS_READ },
  )
  .meta({ description: 'One year, or a span: 2019-2025, 2022-, -2021' });

const number = z.number('a plain number is wanted here');
const tolerance = number.nonnegative('a tolerance is a number without a minus sign');

/** A number with its tolerance: `nominal` alone or with `plusMinus`, or `plus` and `minus`; `min`; `max`; or both. */
export const amount = z
  .strictObject({
    nominal: number.optional().meta({ description: 'What to aim at' }),
    plusMinus: tolerance.optional().meta({ description: 'Tolerance to both sides of nominal' }),
    plus: tolerance.optional().meta({ description: 'Tolerance upwards' }),
    minus: tolerance.optional().meta({ description: 'Tolerance downwards' }),
    min: number.optional().meta({ description: 'Lowest allowed' }),
    max: number.optional().meta({ description: 'Highest allowed' }),
    unit: text.meta({ description: 'N·m, lbf·ft, kPa, mm, mL, °C, …' }),
  })
  .meta({ description: 'A number with tolerance and unit' });
export type AmountWritten = z.infer<typeof amount>;
