import { z } from 'zod';
import { text } from './common.ts';

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
    timezone: text.optional().meta({ description: 'IANA time zone, such as Europe/Vienna' }),
    language: text.optional().meta({ description: 'BCP 47 language tag of the lessons, such as en' }),
    units: z
      .tuple([z.enum(['metric', 'us', 'imperial']), z.enum(['metric', 'us', 'imperial'])])
      .optional()
      .meta({ description: 'The two unit systems shown, the first one first' }),
    paper: z.enum(['A4', 'Letter']).optional(),
    contact: text.optional(),
  })
  .meta({ id: 'shop', description: 'The shop' });
