import type { IntervalKept, Job, JobStep, Reading, ServiceRecord } from './schema.ts';

/** A lesson as its page knows it: what a job is begun from. */
export interface LessonOfJob {
  readonly shop: string;
  readonly lesson: string;
  readonly title: string;
  readonly steps: readonly { readonly id: string; readonly number: string; readonly title: string }[];
}

/** What is known only when something is written down. */
export interface Moment {
  /** ISO 8601, UTC. */
  readonly now: string;
  /** YYYY-MM-DD where the attendee is. */
  readonly today: string;
  /** An id for a new job. */
  readonly newId: string;
  /** The machine in words. */
  readonly machine: string;
}

type Details = Partial<Pick<Job, 'odometer' | 'distanceUnit' | 'doneBy' | 'checkedBy' | 'note'>>;

/** The job of a lesson that is still open; nothing where none is begun. */
export function openJob(
  { jobs }: ServiceRecord,
  { shop, lesson }: Pick<LessonOfJob, 'shop' | 'lesson'>,
): Job | undefined {
  return jobs.find((job) => job.shop === shop && job.lesson === lesson && job.closed === undefined);
}

/**
 * Changes the open job of a lesson, or begins one. Its steps are those of the lesson now; what was written at a step
 * that the lesson no longer has stays, at the end, so that nothing is lost when a lesson is rewritten.
 */
export function changeJob(
  record: ServiceRecord,
  lesson: LessonOfJob,
  { now, today, newId, machine }: Moment,
  change: (job: Job) => Job,
): ServiceRecord {
  const open = openJob(record, lesson);
  const { shop, title } = lesson;
  const job: Job = open ?? {
    id: newId,
    shop,
    lesson: lesson.lesson,
    title,
    begun: today,
    changed: now,
    machine,
    distanceUnit: 'km',
    laidOut: [],
    steps: [],
  };
  const changed = { ...change({ ...job, title, machine, steps: stepsNow(job.steps, lesson.steps) }), changed: now };
  const jobs = open ? record.jobs.map((each) => (each.id === open.id ? changed : each)) : [...record.jobs, changed];
  return { ...record, jobs };
}

function stepsNow(kept: readonly JobStep[], lesson: LessonOfJob['steps']): JobStep[] {
  const known = new Map(kept.map((step) => [step.id, step]));
  const now = lesson.map(({ id, number, title }): JobStep => ({ readings: [], ...known.get(id), id, number, title }));
  const ids = new Set(lesson.map(({ id }) => id));
  return [...now, ...kept.filter((step) => !ids.has(step.id) && isWritten(step))];
}

/** True where somebody has written something down at a step. */
export function isWritten({ done, note, readings }: JobStep): boolean {
  return done !== undefined || note !== undefined || readings.length > 0;
}

function changeStep(job: Job, id: string, change: (step: JobStep) => JobStep): Job {
  return { ...job, steps: job.steps.map((step) => (step.id === id ? change(step) : step)) };
}

/** Lays a thing out, or puts it back. */
export function layOut(job: Job, key: string, out: boolean): Job {
  const others = job.laidOut.filter((each) => each !== key);
  return { ...job, laidOut: out ? [...others, key] : others };
}

/** @param day that it was done on; nothing when it is not done */
export function tick(job: Job, id: string, day: string | undefined): Job {
  return changeStep(job, id, ({ done: _, ...rest }) => (day === undefined ? rest : { ...rest, done: day }));
}

/** An empty note is none. */
export function noteStep(job: Job, id: string, note: string): Job {
  return changeStep(job, id, ({ note: _, ...rest }) => (note.trim() === '' ? rest : { ...rest, note: note.trim() }));
}

/** Takes a reading down in place of the one before, or away. */
export function noteReading(job: Job, id: string, spec: string, reading: Reading | undefined): Job {
  return changeStep(job, id, (step) => ({
    ...step,
    readings: [...step.readings.filter((each) => each.spec !== spec), ...(reading ? [reading] : [])],
  }));
}

/** Details of the whole job; empty words are none. */
export function detail(job: Job, details: { readonly [Key in keyof Details]: Details[Key] | undefined }): Job {
  const next: Record<string, unknown> = { ...job, ...details };
  for (const [key, value] of Object.entries(next)) if (value === undefined || value === '') delete next[key];
  return next as Job;
}

/** Ends a job: it stays in the record as it is, and the lesson begins anew. */
export function closeJob(
  record: ServiceRecord,
  id: string,
  { now, today }: Pick<Moment, 'now' | 'today'>,
): ServiceRecord {
  return {
    ...record,
    jobs: record.jobs.map((job) => (job.id === id ? { ...job, closed: job.closed ?? today, changed: now } : job)),
  };
}

export function withoutJob(record: ServiceRecord, id: string): ServiceRecord {
  return { ...record, jobs: record.jobs.filter((job) => job.id !== id) };
}

/** Keeps when something was done last, in place of what was kept of it. */
export function keepInterval(record: ServiceRecord, kept: IntervalKept): ServiceRecord {
  return { ...record, intervals: [...record.intervals.filter(({ row }) => row !== kept.row), kept] };
}

/** How many of the lesson's steps are ticked. */
export function ticked(job: Job): { readonly done: number; readonly of: number } {
  return { done: job.steps.filter(({ done }) => done !== undefined).length, of: job.steps.length };
}
