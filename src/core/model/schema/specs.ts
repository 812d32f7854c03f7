import { z } from 'zod';
import { KINDS } from '../../spec/kinds.ts';
import { amount, day, id, text, years } from './common.ts';

const source = z.strictObject({
  document: id.meta({ description: 'Id of one of the documents above' }),
  section: text.optional(),
  page: z.union([text, z.number().int().positive()]).optional(),
});

const quantity = {
  nominal: amount.shape.nominal,
  plusMinus: amount.shape.plusMinus,
  plus: amount.shape.plus,
  minus: amount.shape.minus,
  min: amount.shape.min,
  max: amount.shape.max,
  unit: amount.shape.unit.optional(),
  stages: z
    .array(amount)
    .min(2, 'a sequence has at least two stages')
    .optional()
    .meta({ description: 'For torque-sequence: torque, or angle, stage by stage' }),
  distance: amount.optional().meta({ description: 'For interval' }),
  time: amount.optional().meta({ description: 'For interval' }),
  designation: text.optional().meta({
    description: 'For thread and viscosity-grade: M8×1.25, 3/8-24 UNF; 10W-40, SAE 30, ISO VG 32',
  }),
  under: amount.optional().meta({ description: 'For a deflection: the force it is measured under' }),
};

/** One row of a spec table. */
export const specRow = z.strictObject({
  id,
  title: text,
  kind: z.enum(KINDS),
  ...quantity,
  years: years.optional().meta({ description: 'Left out: all years of the machine' }),
  variants: z.array(id).optional(),
  regions: z.array(text).optional(),
  condition: z
    .enum(['dry', 'oiled', 'greased', 'anti-seize', 'threadlocker'])
    .optional()
    .meta({ description: 'State of the threads' }),
  fastener: z
    .strictObject({
      size: text.meta({ description: 'M10×1.25, 3/8-16, …' }),
      class: text.optional().meta({ description: 'Property class 8.8, 10.9, 12.9, or grade 5, 8' }),
    })
    .optional(),
  replace: z.literal('always').optional().meta({ description: 'Used once: a new one each time' }),
  part: id.optional().meta({ description: 'The part in the kit that is replaced' }),
  exact: z
    .literal(true)
    .optional()
    .meta({ description: 'The size a thing is named by, such as a pitch: no tolerance is meant' }),
  critical: z.boolean().optional().meta({ description: 'A wrong value here can hurt someone' }),
  note: text.optional(),
  source: source.optional(),
  checkedBy: text.optional().meta({ description: 'Role of who compared the row with its source' }),
  checkedOn: day.optional(),
  withdrawn: z
    .strictObject({
      on: day.meta({ description: 'Last day the value was held for right' }),
      why: text.meta({ description: 'Why it was taken back, without the value' }),
    })
    .optional()
    .meta({ description: 'The value holds no more and no other is known: pages say so instead of it' }),
  reviewMonths: z.number().int().positive().optional().meta({ description: 'Compare again after so many months' }),
  history: z
    .array(
      z.strictObject({
        until: day.meta({ description: 'Last day this value was the right one' }),
        bulletin: text.optional().meta({ description: 'What changed it' }),
        ...quantity,
      }),
    )
    .optional()
    .meta({ description: 'Superseded values' }),
});

/** `content/specs/<machine>.yaml`: the spec table of a machine. */
export const specsSchema = z
  .strictObject({
    machine: z.strictObject({
      title: text,
      years: years,
      variants: z.array(z.strictObject({ id, title: text })).optional(),
      regions: z.array(text).optional(),
      invented: z.boolean().optional(),
    }),
    documents: z
      .record(
        id,
        z.strictObject({
          title: text,
          edition: text.optional(),
          date: day.optional(),
          invented: z.boolean().optional().meta({ description: 'True when the document does not exist' }),
        }),
      )
      .optional()
      .meta({ description: 'Where the values come from' }),
    specs: z.array(specRow),
  })
  .meta({ id: 'specs', description: 'A machine and its spec table' });
export type SpecRowWritten = z.infer<typeof specRow>;
