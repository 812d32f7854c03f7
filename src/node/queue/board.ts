import type { Job, JobType, Queue } from 'bullmq';
import type { Connected } from './connect.ts';
import { DROPPED, jobAbout, STOP, STOPPED } from './job-data.ts';

/** A job as people see it. */
export interface Listed {
  readonly id: string;
  readonly state: 'waiting' | 'under way' | 'waits for its parts' | 'failed' | 'done';
  readonly task: string;
  readonly recording: string;
  /** Seconds of footage. */
  readonly seconds: number;
  readonly priority: number;
  /** Why it failed. */
  readonly why?: string;
}

const STATES: readonly (readonly [Listed['state'], readonly JobType[]])[] = [
  ['under way', ['active']],
  ['waiting', ['waiting', 'prioritized', 'delayed']],
  ['waits for its parts', ['waiting-children']],
  ['failed', ['failed']],
  ['done', ['completed']],
];

/** Every job of the shop, and the workers there are. */
export class Board {
  readonly #connected: Connected;

  constructor(connected: Connected) {
    this.#connected = connected;
  }

  async list(): Promise<{ readonly jobs: readonly Listed[]; readonly workers: number }> {
    const jobs: Listed[] = [];
    let workers = 0;
    for (const queue of await this.#queues()) {
      // Each worker listens by one connection a queue; the media queue is the one that all have.
      if (queue.name.startsWith('media-')) workers += await queue.getWorkersCount();
      for (const [state, types] of STATES)
        for (const job of await queue.getJobs([...types])) if (job) jobs.push(listed(job, state));
    }
    return { jobs, workers };
  }

  /** Has a failed job, or each of them, tried again. @returns how many */
  async retry(id?: string): Promise<number> {
    let tried = 0;
    for (const queue of await this.#queues())
      for (const job of await queue.getJobs(['failed'])) {
        if (id !== undefined && job.id !== id) continue;
        await job.retry('failed', { resetAttemptsMade: true });
        tried++;
      }
    return tried;
  }

  /** Takes a job out; one that is under way is stopped first. @returns false where there is none of that name */
  async drop(id: string): Promise<boolean> {
    for (const queue of await this.#queues()) {
      const job: Job | undefined = await queue.getJob(id);
      if (!job) continue;
      // Whoever waits for it hears of it too, and does not ask for it again.
      await this.#tellDropped(queue, id);
      if (!(await job.isActive())) await job.remove();
      return true;
    }
    return false;
  }

  async #tellDropped(queue: Queue, jobId: string): Promise<void> {
    const { bull, connection, prefix } = this.#connected;
    const events = new bull.QueueEventsProducer(queue.name, { connection, prefix });
    await events.publishEvent({ eventName: STOP, jobId, why: DROPPED });
    await events.close();
  }

  async #queues(): Promise<Queue[]> {
    const { connection, prefix } = this.#connected;
    const names: string[] = [];
    for await (const keys of connection.scanStream({ match: `${prefix}:*:meta`, count: 1000 }))
      names.push(...(keys as string[]).map((key) => key.slice(prefix.length + 1, -':meta'.length)));
    return names.toSorted().map((name) => this.#connected.queue(name));
  }
}

function listed(job: Job, state: Listed['state']): Listed {
  const about = jobAbout.safeParse((job.data as { about?: unknown } | undefined)?.about);
  const { recording, seconds } = about.success ? about.data : { recording: '', seconds: 0 };
  const stopped = job.failedReason === STOPPED;
  return {
    ...{ id: job.id ?? '', state, task: job.name, recording, seconds, priority: job.priority },
    ...(state === 'failed' && {
      why: stopped
        ? 'stopped on wish'
        : job.failedReason === DROPPED
          ? 'dropped'
          : (job.failedReason ?? '').split('\n')[0],
    }),
  } as Listed;
}
