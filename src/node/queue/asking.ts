import { setTimeout as pause } from 'node:timers/promises';
import type { FlowJob, Job, JobsOptions, Queue, QueueEvents } from 'bullmq';
import type { Redis } from 'ioredis';
import { OutsideFailure } from '../failure.ts';
import type { Workplace } from '../media/pool.ts';
import { sideBySide } from '../media/side-by-side.ts';
import type { Connected } from './connect.ts';
import { DROPPED, type JobData, jobProgress, onStop, STOP, STOPPED } from './job-data.ts';
import type { MediaStore } from './media-store.ts';
import { seal } from './seal.ts';

/** A job to be done by a worker. */
export interface Ask {
  /** Sum of all that decides its result: the same job is never there twice. */
  readonly id: string;
  readonly queue: string;
  readonly data: JobData;
  /** Seconds of footage. */
  readonly seconds: number;
  /** Name of its result in the store; left out where it answers with a value. */
  readonly result?: string;
}

/** For whom jobs are asked, and how urgently. */
export interface CrewWishes {
  readonly connected: Connected;
  readonly store: MediaStore;
  readonly token: string;
  readonly recording: string;
  /** 1 … 2 097 151; lower ones are taken first. */
  readonly priority: number;
  say(text: string): void;
}

interface DoneWishes {
  /** Whether an answer still holds. */
  readonly good?: (answer: unknown) => Promise<boolean>;
  /** True where it was put into its queue already. */
  readonly added?: boolean;
  /** Ends the waiting. */
  readonly signal?: AbortSignal;
}

/** Events may be lost when Redis is started anew: every so often the state is asked for, ms. */
const LOOK_AGAIN = 2000;
/** How long whoever stops waits for the queue to hear of it, ms. */
const STOPPING = 3000;

const OPTIONS: JobsOptions = {
  // A machine may be full or its ffmpeg ended from outside; another one then does it.
  attempts: 3,
  // Kept for a day, so that who asks again is answered and people see what was done.
  removeOnComplete: { age: 24 * 3600, count: 20_000 },
  removeOnFail: { age: 7 * 24 * 3600, count: 5000 },
  sizeLimit: 16 << 20,
  stackTraceLimit: 0,
};

/** Puts jobs into queues and waits for them, whatever happens to workers and to Redis meanwhile. */
export class Asking {
  readonly #wishes: CrewWishes;
  readonly #place: Workplace;
  readonly #listeners = new Map<string, QueueEvents>();
  readonly #waiting = new Map<string, { readonly ask: Ask; wake(): void; reached(seconds: number): void }>();
  readonly #dropped = new Set<string>();
  readonly #lines: Redis[] = [];
  #nobody = false;

  private constructor(wishes: CrewWishes, place: Workplace) {
    this.#wishes = wishes;
    this.#place = place;
  }

  /** Lends one, and takes back what is still waiting where the work was stopped. */
  static async during<T>(wishes: CrewWishes, place: Workplace, work: (asking: Asking) => Promise<T>): Promise<T> {
    const asking = new Asking(wishes, place);
    const watch = new AbortController();
    const watching = asking.#tellWhereNobodyWorks(watch.signal);
    try {
      return await work(asking);
    } finally {
      watch.abort();
      await watching;
      if (place.signal.aborted) await Promise.race([asking.#stopAll(), pause(STOPPING)]);
      await Promise.all([...asking.#listeners.values()].map((events) => events.close().catch(() => undefined)));
      for (const line of asking.#lines) line.disconnect();
    }
  }

  /**
   * Resolves when the result of the job lies in the store, or when it has answered.
   *
   * @returns the answer
   * @throws OutsideFailure with the worker's words when it failed for good
   */
  async done(ask: Ask, { good, added = false, signal = this.#place.signal }: DoneWishes = {}): Promise<unknown> {
    const { store } = this.#wishes;
    const queue = await this.#queue(ask.queue);
    const step = this.#place.progress.step(ask.seconds);
    let wake = () => {};
    this.#waiting.set(ask.id, { ask, wake: () => wake(), reached: step.reached });
    for (let first = !added; ; first = false) {
      signal.throwIfAborted();
      if (this.#dropped.has(ask.id)) throw dropped();
      const woken = new Promise<void>((done) => {
        wake = done;
      });
      const job: Job | undefined = await queue.getJob(ask.id);
      const state = job ? await job.getState() : 'unknown';
      // While a worker has it, or none has yet, there is nothing new to be seen in the store.
      const open = state === 'active' || state === 'waiting' || state === 'prioritized' || state === 'waiting-children';
      if (ask.result !== undefined && (first || !open) && (await store.has(ask.result))) break;
      if (job && state === 'completed' && good && (await good(job.returnvalue))) {
        this.#waiting.delete(ask.id);
        step.end();
        return job.returnvalue;
      }
      // What failed before it was asked for here is tried again, and so is what somebody else had stopped.
      if (job && state === 'failed' && !first && job.failedReason !== STOPPED) throw failureOf(job);
      const over = state === 'completed' || state === 'failed';
      if (job && over) await job.remove({ removeChildren: false }).catch(() => undefined);
      if (over || state === 'unknown') await this.#add(queue, ask);
      else if (job && job.priority > this.#wishes.priority && (state === 'waiting' || state === 'prioritized'))
        await job.changePriority({ priority: this.#wishes.priority }).catch(() => undefined);
      await Promise.race([woken, pause(LOOK_AGAIN, undefined, { signal })]);
    }
    this.#waiting.delete(ask.id);
    step.end();
    return undefined;
  }

  /** A job that is done once all others are; each of them is waited for as `done` does. */
  async flow(parent: Ask, children: readonly Ask[], good: (answer: unknown) => Promise<boolean>): Promise<unknown> {
    const { connected } = this.#wishes;
    const queue = await this.#queue(parent.queue);
    const before: Job | undefined = await queue.getJob(parent.id);
    if (before && (await before.isCompleted()) && (await good(before.returnvalue))) return this.done(parent, { good });
    for (const ask of [parent, ...children]) await this.#clear(ask);
    const { connection, prefix, bull } = connected;
    const producer = new bull.FlowProducer({ connection, prefix });
    const node = (ask: Ask): FlowJob => ({
      ...{ name: ask.data.task, queueName: ask.queue, data: this.#dataOf(ask) },
      opts: { ...OPTIONS, priority: this.#wishes.priority, jobId: ask.id },
    });
    this.#waiting.set(parent.id, { ask: parent, wake: () => {}, reached: () => {} });
    await producer.add({ ...node(parent), children: children.map((ask) => node(ask)) });
    await producer.close();
    try {
      await sideBySide(
        this.#place.signal,
        children.map((ask) => (signal) => this.done(ask, { added: true, signal })),
      );
    } catch (error) {
      const waits = this.#place.signal.aborted ? undefined : await queue.getJob(parent.id);
      await waits?.remove({ removeChildren: false }).catch(() => undefined);
      throw error;
    }
    // A child that somebody else asked for as well tells only one of both that it is done.
    const job = await queue.getJob(parent.id);
    if (job && (await job.getState()) === 'waiting-children') {
      await pause(LOOK_AGAIN, undefined, { signal: this.#place.signal });
      if ((await job.getState()) === 'waiting-children') await job.remove({ removeChildren: false });
    }
    return this.done(parent, { good });
  }

  /** Takes out what is over, so that it can be asked anew. */
  async #clear(ask: Ask): Promise<void> {
    const job: Job | undefined = await (await this.#queue(ask.queue)).getJob(ask.id);
    const state = await job?.getState();
    if (job && (state === 'completed' || state === 'failed')) await job.remove({ removeChildren: false });
  }

  async #add(queue: Queue, ask: Ask): Promise<void> {
    await queue.add(ask.data.task, this.#dataOf(ask), {
      ...{ ...OPTIONS, jobId: ask.id, priority: this.#wishes.priority },
    });
  }

  #dataOf({ id, data, seconds }: Ask): object {
    const { token, recording } = this.#wishes;
    return { job: seal(data, id, token), about: { recording, seconds } };
  }

  async #queue(name: string): Promise<Queue> {
    const { connected } = this.#wishes;
    if (!this.#listeners.has(name)) {
      const { bull, connection, prefix } = connected;
      const line = connection.duplicate();
      this.#lines.push(line);
      const events = new bull.QueueEvents(name, { connection: line, prefix });
      this.#listeners.set(name, events);
      const wake = ({ jobId }: { jobId: string }) => this.#waiting.get(jobId)?.wake();
      events.on('completed', wake).on('failed', wake).on('removed', wake);
      onStop(events, (jobId, why) => {
        if (why !== DROPPED) return;
        this.#dropped.add(jobId);
        wake({ jobId });
      });
      events.on('progress', ({ jobId, data }) => {
        const told = jobProgress.safeParse(data);
        if (told.success) this.#waiting.get(jobId)?.reached(told.data.seconds);
      });
      // It connects again by itself.
      events.on('error', () => {});
      await events.waitUntilReady();
    }
    return connected.queue(name);
  }

  async #stopAll(): Promise<void> {
    const { bull, connection, prefix } = this.#wishes.connected;
    for (const { ask } of this.#waiting.values()) {
      const queue = this.#wishes.connected.queue(ask.queue);
      const job: Job | undefined = await queue.getJob(ask.id);
      if (!job) continue;
      if (await job.isActive()) {
        const events = new bull.QueueEventsProducer(ask.queue, { connection, prefix });
        await events.publishEvent({ eventName: STOP, jobId: ask.id, why: STOPPED });
        await events.close();
      } else await job.remove({ removeChildren: false }).catch(() => undefined);
    }
  }

  /** Says once when jobs wait and no worker is there that could do them. */
  async #tellWhereNobodyWorks(signal: AbortSignal): Promise<void> {
    const { connected, say } = this.#wishes;
    while (!signal.aborted && !this.#nobody) {
      await pause(LOOK_AGAIN, undefined, { signal }).catch(() => undefined);
      for (const name of new Set([...this.#waiting.values()].map(({ ask }) => ask.queue))) {
        if (signal.aborted || (await connected.queue(name).getWorkersCount()) > 0) continue;
        this.#nobody = true;
        say(
          `note: no worker is there for ${name.split('-')[0]} jobs with ffmpeg ${this.#place.tools.version} and this version of Liftside; liftside worker starts one`,
        );
      }
    }
  }
}

function dropped(): OutsideFailure {
  return new OutsideFailure(DROPPED, 'run the command again to have it done after all');
}

/** The worker's words: a message, then what to do on further lines. */
function failureOf(job: Job): OutsideFailure {
  const [message = '', ...help] = (job.failedReason ?? 'it failed').split('\n');
  return new OutsideFailure(message, help.join(' ') || 'liftside jobs shows it; run the command again to try again');
}
