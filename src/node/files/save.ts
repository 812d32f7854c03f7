import { randomUUID } from 'node:crypto';
import { type FileHandle, mkdir, open, readFile, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, relative, resolve } from 'node:path';

/** A file of the content folder and what it shall say. */
export interface TextChange {
  /** Path relative to the content folder, with `/`. */
  readonly file: string;
  /** What the file held when it was read, as text or bytes; nothing for a file that must not be there yet. */
  readonly was: string | Uint8Array | undefined;
  readonly text: string;
}

/** What became of a change: all of it is on disk, or none of it is. */
export type Saved =
  | { readonly ok: true; readonly files: readonly string[] }
  | { readonly ok: false; readonly file: string; readonly problem: string; readonly help: string };

/** Saves one file whole or not at all; see {@link saveTexts}. */
export function saveText(folder: string, change: TextChange): Promise<Saved> {
  return saveTexts(folder, [change]);
}

/**
 * Saves files of the content folder as UTF-8, all or none.
 *
 * Each new text is first written beside its file and flushed; only when all of them are there do they take their
 * places, one rename each, so that a reader sees the old text or the new one and a full disk costs nothing. A file
 * keeps its mode, and one reached by a symbolic link stays a link. Refused when a file is no longer what was read,
 * is there though it should be new, or lies outside of the folder.
 */
export async function saveTexts(folder: string, changes: readonly TextChange[]): Promise<Saved> {
  const prepared: Prepared[] = [];
  try {
    for (const change of changes) {
      const next = await prepare(folder, change);
      if ('problem' in next) return next;
      prepared.push(next);
    }
    for (const { change, target } of prepared) {
      const refusal = await changedUnderneath(change, target);
      if (refusal) return refusal;
    }
    for (const one of prepared) {
      await rename(one.beside, one.target);
      one.placed = true;
    }
    for (const place of new Set(prepared.map(({ target }) => dirname(target)))) await flushFolder(place);
    return { ok: true, files: changes.map(({ file }) => file) };
  } catch (error) {
    const stuck = await takeBack(prepared);
    const refusal = diskRefused(changes[prepared.length]?.file ?? changes.at(-1)?.file ?? '', error);
    return stuck.length === 0
      ? refusal
      : { ...refusal, help: `${stuck.join(', ')} was written before and could not be put back; look at it by hand` };
  } finally {
    await Promise.all(prepared.filter(({ placed }) => !placed).map(({ beside }) => rm(beside, { force: true })));
  }
}

interface Prepared {
  readonly change: TextChange;
  readonly target: string;
  /** Starts with a dot, so that whoever watches or lists the folder passes it by. */
  readonly beside: string;
  placed: boolean;
}

type Refusal = Extract<Saved, { ok: false }>;

async function prepare(folder: string, change: TextChange): Promise<Prepared | Refusal> {
  const path = resolve(folder, change.file);
  const inside = relative(folder, path);
  if (inside === '' || inside.startsWith('..') || isAbsolute(inside))
    return {
      ok: false,
      file: change.file,
      problem: `${change.file} lies outside of the content folder`,
      help: 'name a file inside it',
    };
  const target = await realpath(path).catch(() => path);
  const refusal = await changedUnderneath(change, target);
  if (refusal) return refusal;
  await mkdir(dirname(target), { recursive: true });
  const beside = join(dirname(target), `.${basename(target)}.${randomUUID()}`);
  const mode = change.was === undefined ? 0o666 : (await stat(target)).mode;
  const handle = await open(beside, 'wx', mode);
  try {
    await fill(handle, change.text, change.was === undefined ? undefined : mode);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
  return { change, target, beside, placed: false };
}

/**
 * Where a later file could not be placed, the earlier ones say again what they said.
 *
 * @returns the files for which that failed too
 */
async function takeBack(prepared: readonly Prepared[]): Promise<string[]> {
  const stuck: string[] = [];
  for (const one of prepared.filter(({ placed }) => placed)) {
    const { change, target, beside } = one;
    try {
      if (change.was === undefined) await rm(target, { force: true });
      else {
        const handle = await open(beside, 'wx', (await stat(target)).mode);
        one.placed = false;
        await fill(handle, change.was, undefined);
        await rename(beside, target);
      }
    } catch {
      stuck.push(change.file);
    }
  }
  return stuck;
}

async function fill(handle: FileHandle, text: string | Uint8Array, mode: number | undefined): Promise<void> {
  try {
    await handle.writeFile(text, 'utf8');
    if (mode !== undefined) await handle.chmod(mode);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

async function changedUnderneath({ file, was }: TextChange, target: string): Promise<Refusal | undefined> {
  const now = await readFile(target).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return undefined;
    throw error;
  });
  if (was === undefined)
    return (
      now && {
        ok: false,
        file,
        problem: `${file} is there already`,
        help: 'take another name, or remove the file first',
      }
    );
  if (now?.equals(typeof was === 'string' ? Buffer.from(was) : was)) return undefined;
  return {
    ok: false,
    file,
    problem: now ? `${file} was changed by something else in the meantime` : `${file} is gone`,
    help: 'nothing was written; read the folder again and repeat the change',
  };
}

/** A rename is safe on disk only when its folder is; some systems cannot flush a folder and need not. */
async function flushFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => undefined);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'this user may not write there',
  EPERM: 'this user may not write there',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full for this user',
  EISDIR: 'there is a folder of that name',
  ENOTDIR: 'a part of the path is a file, not a folder',
};

function diskRefused(file: string, error: unknown): Refusal {
  const { code = '', message } = error as NodeJS.ErrnoException;
  return {
    ok: false,
    file,
    problem: `${file} could not be written: ${REASONS[code] ?? message}`,
    help: 'nothing was changed; mend that and try again',
  };
}
