import '../page/within-policy.ts';
import * as z from 'zod/mini';

const words = z.string();
const day = z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}$/));
const distance = z.number().check(z.nonnegative());

/** A reading taken at a step, with what it was held against on that day. */
const reading = z.object({
  /** Id of the spec. */
  spec: words,
  title: words,
  value: z.number(),
  unit: words,
  /** The limits that held for the machine, in words. */
  limits: words,
  /** Absent where the machine's year was not named and the limits differ by it. */
  verdict: z.optional(z.enum(['in', 'near', 'out'])),
  on: day,
});

const step = z.object({
  id: words,
  number: words,
  title: words,
  /** The day it was ticked. */
  done: z.optional(day),
  note: z.optional(words),
  readings: z.array(reading),
});

/** One job: a lesson worked through on one machine. */
const job = z.object({
  /** Made for this job alone, anywhere. */
  id: words,
  shop: words,
  lesson: words,
  title: words,
  begun: day,
  /** Moment of the last change, as ISO 8601 writes it in UTC. */
  changed: words,
  /** The day it was closed; from then on it is kept as it is. */
  closed: z.optional(day),
  /** The machine in words, such as `Tarn 420, 2020`. */
  machine: words,
  odometer: z.optional(distance),
  distanceUnit: z.enum(['km', 'mi']),
  doneBy: z.optional(words),
  checkedBy: z.optional(words),
  note: z.optional(words),
  /** Keys of the things laid out. */
  laidOut: z.array(words),
  steps: z.array(step),
});

/** When something that comes round again was done last. */
const interval = z.object({
  /** Machine and row of the spec table. */
  row: words,
  title: words,
  odometer: z.optional(distance),
  day: z.optional(day),
  changed: words,
});

/** All that an attendee keeps in this browser, and what a file of it holds. */
export const recordSchema = z.object({
  format: z.literal('service record'),
  version: z.literal(1),
  jobs: z.array(job),
  intervals: z.array(interval),
});

export type ServiceRecord = z.infer<typeof recordSchema>;
export type Job = z.infer<typeof job>;
export type JobStep = z.infer<typeof step>;
export type Reading = z.infer<typeof reading>;
export type IntervalKept = z.infer<typeof interval>;

export const EMPTY_RECORD: ServiceRecord = { format: 'service record', version: 1, jobs: [], intervals: [] };
