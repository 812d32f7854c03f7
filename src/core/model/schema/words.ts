import { z } from 'zod';
import { text } from './common.ts';

/** `content/words.yaml`: what people call things, so that search finds them by any of their names. */
export const wordsSchema = z
  .strictObject({
    words: z
      .array(
        z.strictObject({
          say: text.meta({ description: 'The name that lessons and spec table use' }),
          also: z
            .array(text)
            .min(1)
            .meta({ description: 'Other names for it, and slips that are words of their own, such as break pads' }),
          meaning: text.optional().meta({ description: 'What it is, in one sentence' }),
        }),
      )
      .optional(),
    skip: z
      .array(text)
      .optional()
      .meta({ description: 'Words of questions in the language of the shop that say nothing; English ones are known' }),
  })
  .meta({ id: 'words', description: 'Words of the trade' });
