import { z } from 'zod';
import { amount, id, text } from './common.ts';

const hazard = {
  hazard: text.optional().meta({ description: 'What it can do to a person' }),
  signal: z
    .enum(['danger', 'warning', 'caution'])
    .optional()
    .meta({ description: 'The least signal word that a step using it has to carry' }),
};

/** `content/kit.yaml`: tools with their ranges, parts, supplies, protective equipment. */
export const kitSchema = z
  .strictObject({
    tools: z
      .record(
        id,
        z.strictObject({
          title: text,
          kind: z.enum(['torque-wrench', 'measuring-tool', 'other']).optional(),
          range: amount.optional().meta({ description: 'Of a torque wrench: its scale, from min to max' }),
          resolution: amount
            .optional()
            .meta({ description: 'Of a torque wrench or a measuring tool: one mark of its scale' }),
          lever: amount.optional().meta({ description: 'Of a torque wrench: from drive to middle of the grip' }),
          extension: amount.optional().meta({ description: 'Of an adapter: length added in line with the wrench' }),
          count: z.number().int().nonnegative().optional().meta({ description: 'How many the shop has' }),
          ...hazard,
        }),
      )
      .optional(),
    parts: z
      .record(
        id,
        z.strictObject({
          title: text,
          replace: z.literal('always').optional().meta({ description: 'Used once' }),
          count: z.number().int().nonnegative().optional(),
        }),
      )
      .optional(),
    supplies: z
      .record(
        id,
        z.strictObject({
          title: text,
          amount: amount.optional().meta({ description: 'Needed at each station' }),
          ...hazard,
        }),
      )
      .optional(),
    protective: z
      .record(id, z.strictObject({ title: text, count: z.number().int().nonnegative().optional() }))
      .optional()
      .meta({ description: 'Gloves, glasses and the like' }),
  })
  .meta({ id: 'kit', description: 'The kit' });
