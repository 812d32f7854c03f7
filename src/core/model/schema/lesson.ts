import { z } from 'zod';
import { hoursMinutes, id, text, years } from './common.ts';

/** The front matter of `content/lessons/<id>.mdx`. */
export const lessonSchema = z
  .strictObject({
    title: text,
    recording: id.meta({ description: 'Id of the recording' }),
    machine: id.meta({ description: 'Id of the machine whose specs are cited' }),
    years: years.optional().meta({ description: 'Model years this lesson holds for; left out: all of the machine' }),
    summary: text.optional().meta({ description: 'One or two sentences' }),
    level: text.optional(),
    takes: hoursMinutes
      .optional()
      .meta({ description: 'How long the work takes somebody who does it for the first time, h:mm' }),
    draft: z.boolean().optional(),
  })
  .meta({ id: 'lesson', description: 'Front matter of a lesson' });
