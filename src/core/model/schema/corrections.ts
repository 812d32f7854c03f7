import { z } from 'zod';
import { day, id, moment, text } from './common.ts';

/** `content/corrections/<lesson>.yaml`: what has to be said where the recording no longer agrees with the spec table. */
export const correctionsSchema = z
  .strictObject({
    corrections: z.array(
      z.strictObject({
        step: id.meta({ description: 'Id of the step' }),
        at: moment.meta({ description: 'Recording time from which the card is shown, until the step ends' }),
        spec: id.meta({ description: 'The row whose value holds; the value itself is always taken from the table' }),
        said: text.optional().meta({ description: 'The words that no longer hold' }),
        shown: text.optional().meta({ description: 'What the picture shows that no longer holds' }),
        on: day.meta({ description: 'Day it was accepted' }),
        by: text.optional().meta({ description: 'Role of who accepted it' }),
        note: text.optional().meta({ description: 'Why the value changed' }),
      }),
    ),
  })
  .meta({ id: 'corrections', description: 'Corrections of a lesson' });
