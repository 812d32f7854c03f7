import { z } from 'zod';
import { text } from './common.ts';

/** True for a name of the IANA time zone database, as the running engine knows it. */
function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

/** `content/shop.yaml`: the shop itself. */
export const shopSchema = z
  .strictObject({
    name: text,
    about: text.optional().meta({ description: 'One or two sentences for the home page' }),
    invented: z
      .boolean()
      .optional()
      .meta({ description: 'True for a demo: every page says that its values are invented' }),
    site: z
      .url('a web address is wanted, such as https://shop.example')
      .optional()
      .meta({ description: 'Address of the published site' }),
    timezone: text
      .refine(isTimeZone, 'no time zone has this name; it reads like Europe/Vienna')
      .optional()
      .meta({ description: 'IANA time zone, such as Europe/Vienna' }),
    language: text
      .regex(/^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$/, 'a language reads like en or pt-BR')
      .optional()
      .meta({ description: 'BCP 47 language tag of the lessons, such as en' }),
    languages: z
      .array(text.regex(/^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$/, 'a language reads like en or pt-BR'))
      .min(1, 'one language at least is wanted, such as [en]')
      .refine((tags) => new Set(tags).size === tags.length, 'a language is named once')
      .optional()
      .meta({
        description:
          'In place of language, where the site is in several: BCP 47 tags, the first one that of lessons without a suffix, such as [en, es]',
      }),
    units: z
      .tuple([z.enum(['metric', 'us', 'imperial']), z.enum(['metric', 'us', 'imperial'])])
      .optional()
      .meta({ description: 'The two unit systems shown, the first one first' }),
    reviewMonths: z
      .number()
      .int()
      .positive()
      .optional()
      .meta({ description: 'Rows are compared with their source again after so many months; 24 when left out' }),
    speechModel: text
      .regex(/^[^/\\].*$/, 'a folder inside this one is wanted, such as models/english')
      .optional()
      .meta({
        description:
          'Folder, inside this one, with the model by which transcribe recognises speech; --model and LIFTSIDE_MODEL come before it',
      }),
    paper: z.enum(['A4', 'Letter']).optional(),
    contact: text.optional(),
  })
  .meta({ id: 'shop', description: 'The shop' });
