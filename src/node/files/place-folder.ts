import { randomUUID } from 'node:crypto';
import { lstatSync, rmSync } from 'node:fs';
import { chmod, mkdir, open, readdir, rename, rmdir, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { OutsideFailure } from '../failure.ts';
import { diskProblem } from './disk-reason.ts';
import { errorCode } from './error-code.ts';
import { entriesBelow } from './files-below.ts';
import { withLock } from './lock.ts';
import { markFolder, readMarker } from './made-folder.ts';
import { holdOutput, type OutputFolder, realPlace } from './output-folder.ts';
import { flushFolder } from './place-file.ts';

export interface FolderWishes extends OutputFolder {
  /** What is going on, as one who comes meanwhile is told: "a build". */
  readonly what: string;
  /** ms that another one at work there is waited for; at once told when left out. */
  readonly patience?: number;
  /** Asked before the folder takes its place. */
  readonly signal?: AbortSignal;
}

/** Files flushed at once: the disk writes them together. */
const AT_ONCE = 16;

/**
 * Makes a folder of files whole or not at all.
 *
 * It is filled beside its place, `.name.next-…`, flushed and marked; only then does it change places with what an
 * earlier run has made there, by two renames. Until then the last good one stays as it is, whatever fails or is
 * killed; a kill between the renames is mended by the next call or by {@link mendFolder}, and what killed runs have
 * left is cleared. One at a time: who comes meanwhile is told.
 *
 * @param fill puts the files into `next`, an empty folder; `last` is the good one of before, not to be changed
 * @throws OutsideFailure when the folder may not be replaced, see {@link holdOutput}; when another one makes it right
 *   now; when the disk refuses
 */
export async function placeFolder<T>(
  wishes: FolderWishes,
  fill: (next: string, last: string | undefined) => Promise<T>,
): Promise<T> {
  await holdOutput(wishes);
  const target = realPlace(wishes.target);
  let made: string | undefined;
  try {
    made = await mkdir(dirname(target), { recursive: true });
    return await withLock(
      lockOf(target),
      { what: wishes.what, patience: wishes.patience ?? 0, passing: true },
      async () => {
        await mend(target);
        await holdOutput(wishes);
        return replace(target, wishes, fill);
      },
    );
  } catch (error) {
    if (made !== undefined) await removeEmpty(dirname(target), made);
    throw diskRefusal(error, wishes.target);
  }
}

/** Removes the folders on the way that were made for nothing. */
async function removeEmpty(folder: string, top: string): Promise<void> {
  try {
    for (let at = folder; at.startsWith(top); at = dirname(at)) await rmdir(at);
  } catch {
    // Somebody has put something there meanwhile.
  }
}

async function replace<T>(
  target: string,
  { holds, signal, ...wishes }: FolderWishes,
  fill: (next: string, last: string | undefined) => Promise<T>,
): Promise<T> {
  const { next, last } = besides(target);
  try {
    await mkdir(next);
    const before = await stat(target).catch(() => undefined);
    const made = await fill(next, before && target);
    await flush(next);
    await markFolder(next, holds);
    if (before) await chmod(next, before.mode);
    signal?.throwIfAborted();
    // Somebody may have put something there meanwhile.
    await holdOutput({ ...wishes, holds });
    if (before) await rename(target, last);
    await rename(next, target).catch(async (error: unknown) => {
      if (before) await rename(last, target);
      throw error;
    });
    await flushFolder(dirname(target));
    return made;
  } finally {
    for (const beside of [next, last]) discard(beside);
  }
}

/**
 * Puts in order what a killed run has left: a folder that was taken from its place comes back, as the new one where
 * that is whole, else as the old one; what is left beside it goes. Nothing where another one is at work there.
 */
export async function mendFolder(folder: string): Promise<void> {
  const target = realPlace(folder);
  if ((await leftOvers(target)).length === 0) return;
  await withLock(lockOf(target), { what: 'clearing up', patience: 0, passing: true }, () => mend(target)).catch(
    () => undefined,
  );
}

async function mend(target: string): Promise<void> {
  const left = await leftOvers(target);
  for (const name of left) {
    const id = /\.last-(.+)$/.exec(name)?.[1];
    if (id === undefined || (await stat(target).catch(() => undefined))) continue;
    const { next, last } = besides(target, id);
    await rename((await readMarker(next)) ? next : last, target);
  }
  for (const name of left) discard(join(dirname(target), name));
}

function besides(target: string, id: string = randomUUID()): { readonly next: string; readonly last: string } {
  const beside = (kind: string) => join(dirname(target), `.${basename(target)}.${kind}-${id}`);
  return { next: beside('next'), last: beside('last') };
}

async function leftOvers(target: string): Promise<string[]> {
  const names = await readdir(dirname(target)).catch(() => []);
  const start = `.${basename(target)}.`;
  return names.filter(
    (name) =>
      name.startsWith(start) &&
      /^(next|last)-[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(name.slice(start.length)),
  );
}

function lockOf(target: string): string {
  return join(dirname(target), `.${basename(target)}.lock`);
}

/** What cannot be removed now is removed by the next run. */
function discard(folder: string): void {
  try {
    rmSync(folder, { recursive: true, force: true });
  } catch {
    // A file that is held open, or a disk that refuses.
  }
}

/**
 * A rename may reach the disk before what it names does. A file that another folder has too was taken over from it, and
 * flushed when that was made.
 */
async function flush(folder: string): Promise<void> {
  const files = entriesBelow(folder).filter((file) => lstatSync(join(folder, file)).nlink === 1);
  const one = async () => {
    for (let file = files.pop(); file !== undefined; file = files.pop()) {
      const handle = await open(join(folder, file), 'r');
      await handle.sync().finally(() => handle.close());
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, one));
}

/** A refusal of the disk in words; what is missing or amiss elsewhere stays what it is. */
function diskRefusal(error: unknown, target: string): unknown {
  const elsewhere = error instanceof OutsideFailure || errorCode(error) === 'ENOENT';
  const problem = elsewhere ? undefined : diskProblem(error);
  if (problem === undefined) return error;
  return new OutsideFailure(
    `${target} could not be made: ${problem}`,
    `nothing that was there has changed; it is made beside its place, in ${dirname(target)}, which has to have the room and let you write`,
  );
}
