import type { QueueEvents } from 'bullmq';
import { z } from 'zod';
import type { Job } from '../../core/media/index.ts';
import { isContent } from './media-store.ts';

/** What a job says to the worker that takes it. */
export const jobData = z.strictObject({
  task: z.string().regex(/^[a-z][a-z-]{0,40}$/),
  /** What it reads, by content. */
  inputs: z.array(z.string().refine(isContent)).max(20_000),
  params: z.record(z.string(), z.json()),
});
export type JobData = z.infer<typeof jobData>;

/** Of a job, for people: not sealed, and nothing is done by it. */
export const jobAbout = z.object({ recording: z.string().max(200), seconds: z.number() });

/** What the assembling has come to: pieces by their names in the store, or the file that cannot be copied from. */
export const assembledData = z.union([
  z.strictObject({
    files: z.array(z.strictObject({ name: z.string().refine(isContent), frames: z.number().int() })),
    depth: z.number().int(),
  }),
  z.strictObject({ refused: z.strictObject({ content: z.string(), reason: z.string().max(1000) }) }),
]);
export type AssembledData = z.infer<typeof assembledData>;

/** How far a job has come, seconds of footage. */
export const jobProgress = z.object({ seconds: z.number() });

/** A job of core, as its worker has to see it to come to the same sum. */
export function asJob({ task, inputs, params }: JobData): Job {
  return { task, inputs: inputs.map((content) => ({ path: '', content })), params: params as Job['params'] };
}

/** What a job that was stopped on wish says of itself. */
export const STOPPED = 'stopped';
/** And what one says that was taken out of the queue by hand: nobody tries it again unasked. */
export const DROPPED = 'this job was dropped from the queue';
/** Name of the event that asks workers to stop one. */
export const STOP = 'stop';

/** Hears of each wish to stop a job, and why. The types of the library know its own events only. */
export function onStop(events: QueueEvents, heard: (jobId: string, why: string) => void): void {
  const told = ({ jobId, why }: { readonly jobId: string; readonly why: string }) => heard(jobId, why);
  events.on<never>(STOP as never, told as never);
}
