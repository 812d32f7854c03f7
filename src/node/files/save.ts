import { mkdir, rename, rm, stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import { withContentLock } from './content-lock.ts';
import { diskReason } from './disk-reason.ts';
import { insideFolder } from './inside.ts';
import { closeJournal, type JournalEntry, openJournal, recover } from './journal.ts';
import { Locked } from './lock.ts';
import { besideOf, fillNew, flushFolder, placeFile } from './place-file.ts';
import { readPlain } from './read-plain.ts';

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
  | {
      readonly ok: false;
      /** The name leads out; the file is not what was read; somebody else writes; the disk or the system said no. */
      readonly reason: 'outside' | 'changed' | 'busy' | 'disk';
      readonly file: string;
      readonly problem: string;
      readonly help: string;
    };

/** Saves one file whole or not at all; see {@link saveTexts}. */
export function saveText(folder: string, change: TextChange): Promise<Saved> {
  return saveTexts(folder, [change]);
}

/**
 * Saves files of the content folder as UTF-8, all or none, one save at a time whoever saves.
 *
 * Each new text is first written beside its file and flushed; only when all of them are there do they take their
 * places, one rename each, so that a reader sees the old text or the new one and a full disk costs nothing. Of several
 * files a journal is kept meanwhile: where the process is killed between two of them, the next save or the next reading
 * of the folder ends what was begun. A file keeps its mode, and one reached by a symbolic link stays a link. Refused
 * when a file is no longer what was read, is there though it should be new, lies outside of the folder, or when
 * somebody else goes on writing for long.
 */
export async function saveTexts(folder: string, changes: readonly TextChange[]): Promise<Saved> {
  try {
    return await withContentLock(folder, 'a save', async () => {
      await recover(folder);
      return place(folder, changes);
    });
  } catch (error) {
    const file = changes[0]?.file ?? '';
    if (error instanceof Locked) return { ok: false, reason: 'busy', file, problem: error.message, help: error.help };
    return diskRefused(file, error);
  }
}

async function place(folder: string, changes: readonly TextChange[]): Promise<Saved> {
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
    if (prepared.length > 1) await openJournal(folder, prepared.map(entryOf));
    for (const one of prepared) {
      await rename(one.beside, one.target);
      one.placed = true;
    }
    for (const each of new Set(prepared.map(({ target }) => dirname(target)))) await flushFolder(each);
    if (prepared.length > 1) await closeJournal(folder);
    return { ok: true, files: changes.map(({ file }) => file) };
  } catch (error) {
    const stuck = await takeBack(prepared);
    const refusal = diskRefused(changes[prepared.length]?.file ?? changes.at(-1)?.file ?? '', error);
    if (stuck.length > 0)
      return {
        ...refusal,
        help: `${stuck.join(', ')} was written before and could not be put back; look at it by hand`,
      };
    await closeJournal(folder).catch(() => undefined);
    return refusal;
  } finally {
    await Promise.all(prepared.filter(({ placed }) => !placed).map(({ beside }) => rm(beside, { force: true })));
  }
}

interface Prepared {
  readonly change: TextChange;
  readonly target: string;
  readonly beside: string;
  placed: boolean;
}

type Refusal = Extract<Saved, { ok: false }>;

async function prepare(folder: string, change: TextChange): Promise<Prepared | Refusal> {
  const inside = insideFolder(folder, change.file);
  if (!inside.ok)
    return {
      ok: false,
      reason: 'outside',
      file: change.file,
      problem: inside.problem,
      help: 'name a file inside it',
    };
  const target = inside.path;
  const refusal = await changedUnderneath(change, target);
  if (refusal) return refusal;
  await mkdir(dirname(target), { recursive: true });
  const beside = besideOf(target);
  await fillNew(beside, change.text, change.was === undefined ? undefined : (await stat(target)).mode);
  return { change, target, beside, placed: false };
}

function entryOf({ change: { file, was, text } }: Prepared): JournalEntry {
  return { file, was: typeof was === 'string' ? Buffer.from(was) : was, text: Buffer.from(text) };
}

/**
 * Where a later file could not be placed, the earlier ones say again what they said.
 *
 * @returns the files for which that failed too
 */
async function takeBack(prepared: readonly Prepared[]): Promise<string[]> {
  const stuck: string[] = [];
  for (const { change, target } of prepared.filter(({ placed }) => placed)) {
    try {
      if (change.was === undefined) await rm(target, { force: true });
      else await placeFile(target, change.was);
    } catch {
      stuck.push(change.file);
    }
  }
  return stuck;
}

async function changedUnderneath({ file, was }: TextChange, target: string): Promise<Refusal | undefined> {
  const now = await readPlain(target).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return undefined;
    throw error;
  });
  if (was === undefined)
    return (
      now && {
        ok: false,
        reason: 'changed',
        file,
        problem: `${file} is there already`,
        help: 'take another name, or remove the file first',
      }
    );
  if (now?.equals(typeof was === 'string' ? Buffer.from(was) : was)) return undefined;
  return {
    ok: false,
    reason: 'changed',
    file,
    problem: now ? `${file} was changed by something else in the meantime` : `${file} is gone`,
    help: 'nothing was written; read the folder again and repeat the change',
  };
}

function diskRefused(file: string, error: unknown): Refusal {
  return {
    ok: false,
    reason: 'disk',
    file,
    problem: `${file} could not be written: ${diskReason(error)}`,
    help: 'nothing was changed; mend that and try again',
  };
}
