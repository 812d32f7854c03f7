import { basename } from 'node:path';
import { z } from 'zod';
import type { JobInput } from '../../core/media/index.ts';
import { CannotCopy } from '../media/assemble.ts';
import { type Crew, HERE, resultPaths, toolVersion, type Wanted, type Workplace } from '../media/pool.ts';
import { sideBySide } from '../media/side-by-side.ts';
import { jobId } from '../media/store.ts';
import type { Assembled, Assembly } from '../media/strips.ts';
import { type Ask, Asking, type CrewWishes } from './asking.ts';
import { queueName, type Skill } from './connect.ts';
import { type AssembledData, assembledData, type JobData } from './job-data.ts';
import { ASSEMBLE, MEDIA_KINDS } from './job-kinds.ts';
import { type MediaStore, patientStore, storeName } from './media-store.ts';
import { openSealed } from './seal.ts';
import { takeInto } from './take-into.ts';

/** Workers of the queue do the jobs that any machine can do; this process does the others. */
export function queueCrew(wishes: CrewWishes): Crew {
  return {
    async run(open, place) {
      const here = new Map([...open].filter(([, { job }]) => !skillOf(job)));
      const there = [...open].filter(([path]) => !here.has(path));
      for (const [, { seconds }] of there) place.progress.expect(seconds);
      await sideBySide(place.signal, [
        (signal) => HERE.run(here, { ...place, signal }),
        (signal) => runThere(there, { ...place, signal }, wishes),
      ]);
    },
    assemble: (wanted, assembly, place) => assembleThere(wanted, assembly, place, wishes),
  };
}

/** What a worker needs for a job; nothing where only this process can do it. */
function skillOf({ task, params }: Wanted['job']): Skill | undefined {
  if (MEDIA_KINDS.has(task)) return { kind: 'media' };
  if (task === 'find-voice') return { kind: 'voice', listener: z.string().parse(params.listener) };
  if (task === 'recognise') return { kind: 'speech', model: z.string().parse(params.model) };
  return undefined;
}

async function runThere(
  open: readonly (readonly [string, Wanted])[],
  place: Workplace,
  wishes: CrewWishes,
): Promise<void> {
  if (open.length === 0) return;
  const store = patientStore(wishes.store, place.signal, wishes.say);
  await putInputs(
    open.flatMap(([, { job }]) => job.inputs),
    store,
  );
  await Asking.during({ ...wishes, store }, place, async (asking) => {
    await sideBySide(
      place.signal,
      open.map(([path, wanted]) => async (signal) => {
        await asking.done(askOf(wanted, place), { signal });
        await takeInto(path, store, place);
      }),
    );
  });
}

/** Jobs whose results are put together by a job that begins when they are done: a flow. */
async function assembleThere(
  { pictures, beside }: { readonly pictures: readonly Wanted[]; readonly beside: readonly Wanted[] },
  assembly: Assembly,
  place: Workplace,
  wishes: CrewWishes,
): Promise<Assembled> {
  const store = patientStore(wishes.store, place.signal, wishes.say);
  const wanted = [...beside, ...pictures];
  const paths = resultPaths(wanted, place);
  const made = new Set(paths);
  await putInputs(
    [...wanted.flatMap(({ job }) => job.inputs), ...assembly.inputs.filter(({ path }) => !made.has(path))],
    store,
  );
  const open: Wanted[] = [];
  for (const [i, path] of paths.entries()) {
    const one = wanted[i];
    if (!one || paths.indexOf(path) < i) continue;
    const there = await store.has(basename(path));
    // What this machine made when it worked alone serves the others too.
    if (!there && (await place.store.has(path))) await store.put(path, basename(path));
    else if (!there) open.push(one);
    if (!open.includes(one)) place.progress.had(one.seconds);
  }
  for (const { seconds } of open) place.progress.expect(seconds);
  const { inputs, ...params } = assembly;
  const data: JobData = {
    task: ASSEMBLE,
    inputs: inputs.map(({ content }) => content),
    params: JSON.parse(JSON.stringify(params)),
  };
  const fps = assembly.form.rate.numerator / assembly.form.rate.denominator;
  const frames = assembly.pieces.flat().reduce((sum, { count }) => sum + count, 0);
  place.progress.expect(frames / fps);
  const parent: Ask = {
    id: jobId({ task: ASSEMBLE, inputs, params: data.params as Wanted['job']['params'] }, toolVersion(1, place.tools)),
    ...{ data, seconds: frames / fps, queue: queueName({ kind: 'media' }, place.tools) },
  };
  const told = await Asking.during({ ...wishes, store }, place, (asking) =>
    asking.flow(
      parent,
      open.map((one) => askOf(one, place)),
      async (value) => allThere(readAssembled(value, parent.id, wishes.token), store),
    ),
  );
  const value = readAssembled(told, parent.id, wishes.token);
  if ('refused' in value) {
    const { content, reason } = value.refused;
    throw new CannotCopy(inputs.find((input) => input.content === content)?.path ?? content, reason);
  }
  for (const [i, path] of paths.entries()) if (i < beside.length) await takeInto(path, store, place);
  const files: Assembled['files'][number][] = [];
  for (const { name, frames: count } of value.files) {
    const path = place.store.named(name);
    if (!(await place.store.has(path))) await takeInto(path, store, place);
    files.push({ path, frames: count });
  }
  return { files, depth: value.depth };
}

function readAssembled(value: unknown, id: string, token: string): AssembledData {
  return openSealed(value, assembledData, `${id} done`, token);
}

/** False where pieces were cleared out of the store since they were put together. */
async function allThere(value: AssembledData, store: MediaStore): Promise<boolean> {
  if ('refused' in value) return true;
  for (const { name } of value.files) if (!(await store.has(name))) return false;
  return true;
}

function askOf({ job, version, extension, seconds }: Wanted, { tools }: Workplace): Ask {
  const id = jobId(job, toolVersion(version, tools));
  const skill = skillOf(job);
  if (!skill) throw new RangeError(`no worker does ${job.task}`);
  const data = { task: job.task, inputs: job.inputs.map(({ content }) => content), params: job.params };
  return { id, result: `${id}.${extension}`, seconds, queue: queueName(skill, tools), data: data as JobData };
}

async function putInputs(inputs: readonly JobInput[], store: MediaStore): Promise<void> {
  for (const [content, { path }] of new Map(inputs.map((input) => [input.content, input])))
    if (!(await store.has(storeName(content)))) await store.put(path, storeName(content));
}
