import { z } from 'zod';
import { RATE_NAMES } from '../../time/index.ts';
import { CARD_CORNERS } from '../card-corner.ts';
import { contentFile, id, moment, text } from './common.ts';

/** `content/recordings/<id>.yaml`: one continuous take as far as time goes. */
export const recordingSchema = z
  .strictObject({
    title: text,
    licence: text.optional().meta({ description: 'Under which terms its film may be used' }),
    files: z
      .array(
        z.strictObject({
          file: contentFile,
          start: moment.optional().meta({ description: 'Timecode of the first frame of this file' }),
        }),
      )
      .min(1, 'a recording has at least one camera file')
      .meta({ description: 'Camera files in shooting order' }),
    rate: z.enum(RATE_NAMES).optional().meta({ description: 'Frame rate; read from the first file when left out' }),
    start: moment.optional().meta({ description: 'Timecode of the first frame' }),
    captions: contentFile
      .optional()
      .meta({ description: 'WebVTT or SRT file in recording time, relative to the content folder' }),
    cards: z
      .enum(CARD_CORNERS)
      .optional()
      .meta({ description: 'Corner of the cards burnt in; left out: where nothing moves while a card is shown' }),
    shows: z
      .array(
        z.strictObject({
          at: moment,
          text: text.meta({ description: 'The value as it is seen, with its unit, such as 98 N·m' }),
        }),
      )
      .optional()
      .meta({ description: 'Values that the picture shows: a card held up, a manual, the scale of a wrench' }),
    edit: z
      .array(
        z.strictObject({
          in: moment,
          out: moment,
          angle: id.optional().meta({ description: 'Id of the further camera that is shown' }),
        }),
      )
      .optional()
      .meta({ description: 'The edit list: what stays. Left out: everything stays' }),
    angles: z
      .array(
        z.strictObject({
          id: id.meta({ description: 'Small letters, digits, hyphens; the files of one camera share it' }),
          file: contentFile,
          offset: text.optional().meta({
            description:
              'Recording time of its first frame (of its first sample where it has no picture), with a minus where it began earlier: -0:00:12.345; `align` finds it',
          }),
          drift: z
            .number()
            .min(-1000)
            .max(1000)
            .optional()
            .meta({ description: 'How much its clock runs fast against the recording, parts per million' }),
        }),
      )
      .optional()
      .meta({ description: 'Further cameras or sound recorders running at the same time' }),
    sound: id.optional().meta({ description: 'Id of the angle whose sound is heard, where it has any' }),
    people: z
      .array(
        z.strictObject({
          role: text,
          name: text.optional(),
          release: z.enum(['on-file', 'missing', 'not-needed']).optional().meta({ description: 'Consent to be shown' }),
        }),
      )
      .optional()
      .meta({ description: 'Who is seen or heard' }),
  })
  .meta({ id: 'recording', description: 'A recording' });
