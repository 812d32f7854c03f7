import { readFile } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import type { z } from 'zod';
import type { Job, JobInput } from '../../core/media/index.ts';
import type { Listener } from './listener.ts';
import type { Progress } from './progress.ts';
import { sideBySide } from './side-by-side.ts';
import type { Store } from './store.ts';
import type { Assembled, Assembly } from './strips.ts';
import type { Tools } from './tools.ts';

/** What a task may use while it does a job. */
export interface Bench {
  readonly tools: Tools;
  readonly store: Store;
  readonly signal: AbortSignal;
  /** Seconds of output done so far. */
  onSeconds(seconds: number): void;
}

/** Does one kind of job, with parameters of one shape. */
export interface Task<P extends object> {
  readonly name: string;
  /** Raised when the same job would give another result. */
  readonly version: number;
  readonly extension: string;
  /** Writes the result to `output`; whole or not at all is the pool's care. */
  run(params: P, inputs: readonly string[], output: string, bench: Bench): Promise<void>;
}

/** A job, and the way to do it. */
export interface Wanted {
  readonly job: Job;
  readonly version: number;
  readonly extension: string;
  /** Seconds of output, for the progress display. */
  readonly seconds: number;
  run(output: string, bench: Bench): Promise<void>;
}

/** @param seconds of output */
export function want<P extends object>(task: Task<P>, inputs: readonly JobInput[], params: P, seconds: number): Wanted {
  return {
    // The round trip leaves out what is undefined: a job is plain data.
    job: { task: task.name, inputs, params: JSON.parse(JSON.stringify(params)) },
    version: task.version,
    extension: task.extension,
    seconds,
    run: (output, bench) =>
      task.run(
        params,
        inputs.map(({ path }) => path),
        output,
        bench,
      ),
  };
}

/** Who does jobs, where it is not this process. */
export interface Crew {
  /** Does jobs that have no result yet; when this returns, each result lies in the place's store, at the path beside it. */
  run(open: ReadonlyMap<string, Wanted>, place: Workplace): Promise<void>;
  /**
   * Does jobs, and puts what comes of them together.
   *
   * @param beside jobs whose results are wanted too, done at the same time
   * @throws CannotCopy as `assemble` does
   */
  assemble?(
    wanted: { readonly pictures: readonly Wanted[]; readonly beside: readonly Wanted[] },
    assembly: Assembly,
    place: Workplace,
  ): Promise<Assembled>;
}

/** Where the pool works and whom it tells. */
export interface Workplace {
  readonly tools: Tools;
  readonly store: Store;
  readonly signal: AbortSignal;
  readonly progress: Progress;
  /** How many jobs run side by side; the number of processors when left out. */
  readonly workers?: number;
  /** What tells speech from other sound; what this machine has when left out, loudness when `null`. */
  readonly listener?: Listener | null;
  /** Who does the jobs; this process when left out. */
  readonly crew?: Crew;
}

/** Where results of jobs lie, once they are done. */
export function resultPaths(wanted: readonly Wanted[], { store, tools }: Workplace): string[] {
  return wanted.map(({ job, version, extension }) => store.path(job, toolVersion(version, tools), extension));
}

/** What a result depends on besides its job. @param version of the task */
export function toolVersion(version: number, tools: Pick<Tools, 'version'>): string {
  return `${version} ffmpeg ${tools.version}`;
}

/**
 * Does the jobs that have no result yet.
 *
 * @returns paths of the results, in the order asked for
 * @throws the first failure, after the jobs running beside it have been stopped
 */
export async function runJobs(wanted: readonly Wanted[], place: Workplace): Promise<string[]> {
  const paths = resultPaths(wanted, place);
  const open = new Map<string, Wanted>();
  for (const [i, path] of paths.entries()) {
    const one = wanted[i];
    if (!one || open.has(path)) continue;
    if (await place.store.has(path)) place.progress.had(one.seconds);
    else open.set(path, one);
  }
  await (place.crew ?? HERE).run(open, place);
  return paths;
}

/** This process does the jobs: several side by side, the longest first. */
export const HERE: Crew = {
  async run(open, place) {
    const queue = [...open].toSorted(([, a], [, b]) => b.seconds - a.seconds);
    for (const [, one] of queue) place.progress.expect(one.seconds);
    await sideBySide(
      place.signal,
      queue.map(
        ([path, one]) =>
          (signal) =>
            runOne(one, path, { ...place, signal }),
      ),
      place.workers ?? availableParallelism(),
    );
  },
};

/** Does jobs whose results are JSON, and reads these. @throws as `runJobs` does; ZodError when a result is of another shape */
export async function runJsonJobs<T>(wanted: readonly Wanted[], shape: z.ZodType<T>, place: Workplace): Promise<T[]> {
  const paths = await runJobs(wanted, place);
  return Promise.all(paths.map(async (path) => shape.parse(JSON.parse(await readFile(path, 'utf8')))));
}

async function runOne(one: Wanted, path: string, place: Workplace): Promise<void> {
  const temporary = place.store.temporary(one.extension);
  const step = place.progress.step(one.seconds);
  await one.run(temporary, {
    tools: place.tools,
    store: place.store,
    signal: place.signal,
    onSeconds: (done) => step.reached(done),
  });
  await place.store.keep(temporary, path);
  step.end();
}
