import { randomUUID } from 'node:crypto';
import { mkdir, readdir, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { COLLECTION_FILE } from '../../core/collections/index.ts';
import { keptFolder } from '../../core/read/index.ts';
import { errorCode, fileInside, flushFolder, withContentLock } from '../files/index.ts';
import { fillNew } from '../files/place-file.ts';
import { PackageRefused } from '../pack/index.ts';
import { openFolder } from './sources.ts';
import { type Verified, verifyCollection } from './verify.ts';

/** A version as the content folder keeps it, or why it is not what was signed; nothing where it is not kept. */
export type KeptVersion =
  | { readonly whole: true; readonly verified: Verified }
  | { readonly whole: false; readonly problem: string; readonly help: string };

/** Reads a version that is kept, and holds it to its signature and sums. @param content absolute path */
export async function readKept(
  content: string,
  name: string,
  lock: { readonly version: string; readonly sum?: string } | undefined,
  signal: AbortSignal,
): Promise<KeptVersion | undefined> {
  if (!lock) return undefined;
  const folder = fileInside(content, keptFolder(name, lock.version));
  const there = await readdir(folder).catch(() => undefined);
  if (!there) return undefined;
  const again = `delete ${folder}, then \`liftside collections update\` fetches it anew`;
  try {
    const files = await openFolder(folder);
    const verified = await verifyCollection(files, signal).finally(() => files.close());
    if (lock.sum === undefined || verified.sum === lock.sum) return { whole: true, verified };
    return { whole: false, problem: `${name} ${lock.version} is not the one that was taken`, help: again };
  } catch (error) {
    if (!(error instanceof PackageRefused)) throw error;
    return { whole: false, problem: error.message, help: again };
  }
}

/**
 * Keeps a version in the content folder, so that it is there without a network: filled beside its place, flushed, put
 * there by one rename. One that is kept already and is the same stays.
 */
export async function keepVersion(content: string, verified: Verified, signal: AbortSignal): Promise<void> {
  const { name, version } = verified.manifest;
  const before = await readKept(content, name, { version, sum: verified.sum }, signal);
  if (before?.whole) return;
  await withContentLock(content, 'keeping a collection', async () => {
    const target = fileInside(content, keptFolder(name, version));
    await mkdir(dirname(target), { recursive: true });
    const beside = join(dirname(target), `.${version}.${randomUUID()}`);
    try {
      for (const [path, bytes] of [[COLLECTION_FILE, verified.about] as const, ...verified.files]) {
        const file = join(beside, path);
        await mkdir(dirname(file), { recursive: true });
        await fillNew(file, bytes, undefined);
      }
      // What is not whole is no loss; a folder cannot be put over one that holds something.
      await rm(target, { recursive: true, force: true });
      await rename(beside, target);
      await flushFolder(dirname(target));
    } finally {
      await rm(beside, { recursive: true, force: true });
    }
  });
}

/** Clears away the versions of a collection that are neither in use nor waiting to be taken, and what kills have left. */
export async function dropVersions(content: string, name: string, keep: readonly string[]): Promise<void> {
  const folder = fileInside(content, `collections/${name}`);
  const there = await readdir(folder).catch((error: unknown) => {
    if (errorCode(error) === 'ENOENT') return [];
    throw error;
  });
  for (const version of there)
    if (!keep.includes(version)) await rm(join(folder, version), { recursive: true, force: true });
}
