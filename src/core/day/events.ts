import { z } from 'zod';
import { idSchema } from '../model/index.ts';

const id = idSchema.max(200);
const words = z.string().trim().min(1).max(500);
const change = z.strictObject({
  block: id,
  /** How it is given; null: not at all. */
  treatment: id.nullable(),
});

/** Seconds on the clock of the class, from its planned start; before it they are negative. */
const at = z
  .number()
  .min(-86_400)
  .max(7 * 86_400);
/** Known twice, it counts once. */
const common = { id: z.string().min(1).max(80), at };

/** Something that happens on the day, as it is written down at once. */
export const dayEventSchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...common, kind: z.literal('begin') }),
  z.strictObject({ ...common, kind: z.literal('next') }),
  z.strictObject({ ...common, kind: z.literal('back') }),
  z.strictObject({ ...common, kind: z.literal('jump'), block: id }),
  z.strictObject({ ...common, kind: z.literal('over') }),
  z.strictObject({
    ...common,
    kind: z.literal('change'),
    changes: z.array(change).max(50),
    /** The class may take so long now, s; asked for, never by itself. */
    slotSeconds: z.number().positive().max(86_400).optional(),
    /** Blocks that need not start at their time of day any more; asked for, never by itself. */
    freed: z.array(id).max(50).optional(),
    text: words,
  }),
  z.strictObject({ ...common, kind: z.literal('undo') }),
  z.strictObject({ ...common, kind: z.literal('attendance'), count: z.number().int().min(0).max(999) }),
  z.strictObject({
    ...common,
    kind: z.literal('kit'),
    key: z.string().max(200),
    back: z.number().int().min(0).max(999),
    who: z.string().max(100).optional(),
  }),
  z.strictObject({
    ...common,
    kind: z.literal('question'),
    words,
    lesson: id.optional(),
    step: id.optional(),
  }),
  z.strictObject({ ...common, kind: z.literal('answered'), question: z.string().max(80), answer: words.optional() }),
  z.strictObject({ ...common, kind: z.literal('show'), lesson: id.optional(), step: id.optional() }),
  z.strictObject({ ...common, kind: z.enum(['play', 'pause', 'again', 'slower', 'faster', 'clip-over']) }),
  /** Values of this model year; without one those of the lesson's own years. */
  z.strictObject({ ...common, kind: z.literal('year'), year: z.number().int().min(1900).max(2200).optional() }),
  z.strictObject({ ...common, kind: z.literal('dark'), on: z.boolean() }),
]);

export type DayEvent = z.infer<typeof dayEventSchema>;

type Without<E> = E extends unknown ? Omit<E, 'id' | 'at'> : never;

/** An event before it is known when it happens. */
export type DayAct = Without<DayEvent>;

export const dayEventsSchema = z.strictObject({ events: z.array(dayEventSchema).max(1000) });
