import { mkdtemp, rm } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Job, QueueEvents, Worker } from 'bullmq';
import type { Redis } from 'ioredis';
import { z } from 'zod';
import { OutsideFailure } from '../failure.ts';
import { CannotCopy } from '../media/assemble.ts';
import { assemble } from '../media/assembly.ts';
import { spaceAt } from '../media/disk.ts';
import { type Bench, HERE, toolVersion, type Workplace } from '../media/pool.ts';
import { Progress, SILENT } from '../media/progress.ts';
import { jobId, Store } from '../media/store.ts';
import type { Tools } from '../media/tools.ts';
import type { Connected, Skill } from './connect.ts';
import { queueName } from './connect.ts';
import { Inputs } from './inputs.ts';
import {
  type AssembledData,
  asJob,
  DROPPED,
  type JobData,
  jobData,
  type jobProgress,
  onStop,
  STOPPED,
} from './job-data.ts';
import { ASSEMBLE, assemblyParams, assemblyParts, type JobKind, MEDIA_KINDS } from './job-kinds.ts';
import { type MediaStore, patientStore } from './media-store.ts';
import { openSealed, seal } from './seal.ts';
import { bring } from './take-into.ts';

/** What a worker has, and whom it tells. */
export interface WorkerPlace {
  readonly connected: Connected;
  readonly store: MediaStore;
  readonly token: string;
  readonly tools: Tools;
  /** A folder of its own: it writes nowhere else but there and into the store. */
  readonly scratch: string;
  /** What it can do besides what ffmpeg alone can, and how many of those at once. */
  readonly skills: readonly (readonly [Skill, ReadonlyMap<string, JobKind>])[];
  /** Media jobs at once. */
  readonly sideBySide: number;
  readonly signal: AbortSignal;
  say(text: string): void;
}

/** A job whose worker has not been heard of for so long is given to another one, ms. */
const UNHEARD = 15_000;
/** How often that is looked for, ms. */
const LOOKED_FOR = 5000;
/** A job over which so many workers died is not given to a further one. */
const DEATHS = 10;
/** How often a job tells how far it has come, ms. */
const TELLS = 500;
/** With less room than this on its disk a worker takes no jobs, bytes. */
const ROOM = 64 << 20;
/** How often it looks whether there is room again, ms. */
const LOOKS = 2000;

/** Takes jobs from the queues and does them, until the signal stops it; what is under way then goes back. */
export async function work(place: WorkerPlace): Promise<void> {
  const { connected, signal, say } = place;
  const { bull, connection, prefix } = connected;
  const inputs = new Inputs(place.scratch);
  const workers: Worker[] = [];
  const events: QueueEvents[] = [];
  const lines: Redis[] = [];
  // What is not closed here keeps the process from ending.
  const line = () => {
    const own = connection.duplicate();
    lines.push(own);
    return own;
  };
  for (const [skill, kinds] of [[{ kind: 'media' }, MEDIA_KINDS] as const, ...place.skills]) {
    const name = queueName(skill, place.tools);
    const worker = new bull.Worker(name, (job, token, stop) => doJob(job, token, stop, kinds), {
      connection: line(),
      ...{ prefix, name: hostname(), concurrency: skill.kind === 'media' ? place.sideBySide : 1 },
      ...{ lockDuration: UNHEARD, stalledInterval: LOOKED_FOR, maxStalledCount: DEATHS },
    });
    // It connects again by itself; what a job says comes with the job.
    worker.on('error', () => {});
    workers.push(worker);
    const heard = new bull.QueueEvents(name, { connection: line(), prefix });
    heard.on('error', () => {});
    onStop(heard, (id, why) => worker.cancelJob(id, why === DROPPED ? DROPPED : STOPPED));
    events.push(heard);
  }
  await Promise.all([...workers, ...events].map((each) => each.waitUntilReady()));
  say(`ready: ffmpeg ${place.tools.version}, up to ${place.sideBySide} jobs at once, store ${place.store.shown}`);
  const full = watchRoom();
  await new Promise<void>((done) => {
    if (signal.aborted) done();
    signal.addEventListener('abort', () => done(), { once: true });
  });
  for (const worker of workers) worker.cancelAllJobs();
  await Promise.all([full, ...workers.map((worker) => worker.close()), ...events.map((each) => each.close())]);
  for (const own of lines) own.disconnect();
  const { fetched, whole } = inputs.told;
  const mega = (bytes: number) => (bytes / 1e6).toFixed(1);
  if (whole > 0) say(`of camera files of ${mega(whole)} MB, ${mega(fetched)} MB were fetched`);

  async function doJob(
    job: Job,
    token: string | undefined,
    stop: AbortSignal | undefined,
    kinds: ReadonlyMap<string, JobKind>,
  ): Promise<unknown> {
    const jobSignal = AbortSignal.any([signal, ...(stop ? [stop] : [])]);
    const id = job.id ?? '';
    try {
      const data = openSealed((job.data as { job?: unknown }).job, jobData, id, place.token);
      return await runSealed(id, data, job, kinds, { ...place, inputs, signal: jobSignal });
    } catch (error) {
      if (signal.aborted || (await spaceAt(place.scratch)) < ROOM) {
        if (!signal.aborted) say(`${id} goes back: the disk of ${place.scratch} is full`);
        await job.moveToWait(token);
        throw new bull.WaitingError();
      }
      if (stop?.aborted) throw new bull.UnrecoverableError(String(stop.reason).endsWith(DROPPED) ? DROPPED : STOPPED);
      const words = error instanceof OutsideFailure ? [error.message, error.help] : [wordsOf(error)];
      say(`${id} failed: ${words[0]}`);
      throw new Error(words.join('\n'));
    }
  }

  /** A full disk must not turn one job after the other away: it waits until somebody has made room. */
  async function watchRoom(): Promise<void> {
    let told = false;
    while (!signal.aborted) {
      await inputs.makeRoom();
      const short = (await spaceAt(place.scratch).catch(() => ROOM)) < ROOM;
      if (short && !told) {
        say(`note: there is no room on the disk of ${place.scratch}: no job is taken until there is`);
        await Promise.all(workers.map((worker) => worker.pause(true)));
      } else if (!short && told) {
        say('there is room again');
        for (const worker of workers) await worker.resume();
      }
      told = short;
      await pause(LOOKS, undefined, { signal }).catch(() => undefined);
    }
  }
}

/** Does a job whose data is known to be the shop's own. */
async function runSealed(
  id: string,
  data: JobData,
  job: Job,
  kinds: ReadonlyMap<string, JobKind>,
  place: WorkerPlace & { readonly inputs: Inputs },
): Promise<unknown> {
  const { tools, signal, say } = place;
  const kind = kinds.get(data.task);
  if (!kind && data.task !== ASSEMBLE) throw new OutsideFailure(`this worker does no ${data.task}`, '');
  if (jobId(asJob(data), toolVersion(kind?.version ?? 1, tools)) !== id)
    throw new OutsideFailure(
      `the job ${id} is not what it says`,
      'bring Liftside to the same version on every machine',
    );
  const store = patientStore(place.store, signal, say);
  const result = `${id}.${kind?.extension}`;
  if (kind && (await store.has(result))) return undefined;
  const told = new Telling(job, signal);
  const asked = kind?.read(data.params);
  const assembly = kind ? undefined : assemblyParams.parse(data.params);
  const parts = asked?.parts ?? (assembly && assemblyParts(assembly));
  return withStore(place.scratch, id, (own) =>
    place.inputs.during(data.inputs, parts, { store, signal }, async (paths) => {
      if (assembly) {
        const inputs = data.inputs.map((content, i) => ({ content, path: paths[i] ?? '' }));
        const answer = await assembled({ inputs, ...assembly }, own, { ...place, signal, store }, told);
        say(`done ${id}`);
        return seal(answer, `${id} done`, place.token);
      }
      const output = own.temporary(kind?.extension ?? '');
      const bench: Bench = { tools, store: own, signal, onSeconds: told.reached };
      await asked?.run(paths, output, bench);
      signal.throwIfAborted();
      await store.put(output, result);
      say(`done ${id}`);
      return undefined;
    }),
  );
}

/** Puts pictures together as on one machine; pieces that lie in the store are not made again. */
async function assembled(
  assembly: Parameters<typeof assemble>[0],
  own: Store,
  place: WorkerPlace,
  told: Telling,
): Promise<AssembledData> {
  const { store, tools, signal } = place;
  let joined = 0;
  const here: Workplace = {
    ...{ tools, store: own, signal, progress: new Progress(SILENT) },
    crew: {
      run: (open, at) =>
        HERE.run(
          new Map(
            [...open].map(([path, wanted]) => [
              path,
              {
                ...wanted,
                run: async (output, bench) => {
                  if (await store.has(basename(path))) await bring(basename(path), output, store, at);
                  else {
                    await wanted.run(output, bench);
                    await store.put(output, basename(path));
                  }
                  joined += wanted.seconds;
                  told.reached(joined);
                },
              },
            ]),
          ),
          at,
        ),
    },
  };
  try {
    const { files, depth } = await assemble(assembly, here);
    return { files: files.map(({ path, frames }) => ({ name: basename(path), frames })), depth };
  } catch (error) {
    if (!(error instanceof CannotCopy)) throw error;
    const content = assembly.inputs.find(({ path }) => path === error.path)?.content ?? '';
    return { refused: { content, reason: error.message } };
  }
}

/** A store of one job's own, which is gone when the job is. */
async function withStore<T>(scratch: string, id: string, work: (store: Store) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(scratch, `${id.slice(0, 40)}-`));
  try {
    return await work(await Store.open(folder));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Tells the queue now and then how far a job has come. */
class Telling {
  readonly #job: Job;
  readonly #signal: AbortSignal;
  #last = 0;

  constructor(job: Job, signal: AbortSignal) {
    this.#job = job;
    this.#signal = signal;
  }

  readonly reached = (seconds: number): void => {
    const now = performance.now();
    if (now - this.#last < TELLS || this.#signal.aborted) return;
    this.#last = now;
    const progress: z.infer<typeof jobProgress> = { seconds };
    // Only shown: where the queue is away nothing is lost.
    this.#job.updateProgress(progress).catch(() => undefined);
  };
}

function wordsOf(error: unknown): string {
  if (error instanceof z.ZodError) return 'it says something that no job may say';
  return error instanceof Error ? error.message : String(error);
}
