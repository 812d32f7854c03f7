import { randomUUID } from 'node:crypto';
import { type FileHandle, open, readdir, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/**
 * Where a file is written before it takes its place: in the same folder, with a dot before it, so that whoever watches
 * or lists the folder passes it by.
 */
export function besideOf(path: string): string {
  return join(dirname(path), `.${basename(path)}.${randomUUID()}`);
}

/** Clears away what killed writers of a file have left beside it; for who knows that nobody writes it now. */
export async function clearBeside(path: string): Promise<void> {
  const start = `.${basename(path)}.`;
  const names = await readdir(dirname(path)).catch(() => []);
  for (const name of names)
    if (name.startsWith(start) && /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(name.slice(start.length)))
      await rm(join(dirname(path), name), { force: true });
}

/**
 * Writes a file whole or not at all: beside its place, flushed, then put there by one rename. A reader sees the old
 * bytes or the new ones; a full disk or a kill costs nothing and leaves at most the file beside. The mode of a file
 * that is there stays. What is no plain file, such as a pipe, is written to as it is.
 *
 * @param path absolute, free of links below the folder it has to stay in
 * @param mode of the file; left out, it keeps the one it has
 * @throws what the file system says, with its code
 */
export async function placeFile(path: string, bytes: string | Uint8Array, mode?: number): Promise<void> {
  const known = await stat(path).catch(() => undefined);
  if (known && !known.isFile() && !known.isDirectory()) return writeFile(path, bytes);
  await putByRename(path, (beside) => fillNew(beside, bytes, mode ?? known?.mode));
  await flushFolder(dirname(path));
}

/**
 * Puts a file in place of another by one rename, and does not wait until it is on the disk: for what can be made again,
 * and says by a sum of its own whether it is whole.
 *
 * @throws what the file system says, with its code
 */
export async function replaceFile(path: string, bytes: Uint8Array): Promise<void> {
  await putByRename(path, (beside) => writeFile(beside, bytes, { flag: 'wx' }));
}

async function putByRename(path: string, fill: (beside: string) => Promise<unknown>): Promise<void> {
  const beside = besideOf(path);
  try {
    await fill(beside);
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}

/**
 * Fills a new file and flushes it to the disk.
 *
 * @param mode of the file, whatever the user's mask says; the usual one when left out
 */
export async function fillNew(path: string, bytes: string | Uint8Array, mode: number | undefined): Promise<void> {
  const handle = await open(path, 'wx', mode ?? 0o666);
  try {
    await fill(handle, bytes, mode);
  } catch (error) {
    await rm(path, { force: true });
    throw error;
  }
}

async function fill(handle: FileHandle, bytes: string | Uint8Array, mode: number | undefined): Promise<void> {
  try {
    // Goes on where the system took a part only, as a disk that runs full does before it says so.
    await handle.writeFile(bytes, 'utf8');
    if (mode !== undefined) await handle.chmod(mode);
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** A rename is safe on disk only when its folder is; some systems cannot flush a folder and need not. */
export async function flushFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => undefined);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}
