import { z } from 'zod';
import { clock, day, id, text } from './common.ts';

const block = z
  .strictObject({
    id,
    treatment: id.optional().meta({ description: 'How it was given; the block’s only treatment when left out' }),
    minutes: z.number().nonnegative().optional().meta({ description: 'How long it took' }),
    starts: clock.optional().meta({ description: 'With ends, in place of minutes' }),
    ends: clock.optional(),
    note: text.optional(),
  })
  .refine(({ minutes, starts, ends }) => minutes !== undefined || (starts !== undefined && ends !== undefined), {
    error: 'a block has minutes, or starts and ends',
  });

/** `content/classes/<id>.actual.yaml`: how long the blocks of a class really took. */
export const actualSchema = z
  .strictObject({
    date: day.meta({ description: 'The day it took place' }),
    attendees: z.number().int().nonnegative().optional().meta({ description: 'How many came' }),
    blocks: z.array(block),
  })
  .meta({ id: 'actual', description: 'What a class really took' });
