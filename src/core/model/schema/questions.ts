import { z } from 'zod';
import { clock, day, id, text } from './common.ts';

const question = z.strictObject({
  asked: clock.optional().meta({ description: 'Time of day' }),
  words: text.meta({ description: 'The question, in a few words' }),
  block: id.optional().meta({ description: 'The block that was on' }),
  lesson: id.optional().meta({ description: 'With step: what was on screen' }),
  step: id.optional(),
  answered: z.boolean().optional().meta({ description: 'It needs nothing more' }),
  answer: text.optional(),
});

/** `content/questions/<class>.yaml`: questions that were set aside in a class. */
export const questionsSchema = z
  .strictObject({ date: day.meta({ description: 'The day of the class' }), questions: z.array(question) })
  .meta({ id: 'questions', description: 'Questions set aside in class' });
