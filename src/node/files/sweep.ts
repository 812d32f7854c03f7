import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { CONTENT_FOLDERS } from './content-folders.ts';
import { withContentLock } from './content-lock.ts';

/** What a save that was killed half-way leaves beside its file: a dot, the name, a UUID. */
const LEFT_OVER = /^\..+\.[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** Folders of the content that something is saved into. */
const SAVED_INTO = ['.', ...CONTENT_FOLDERS, '.liftside'];

/**
 * Clears away what killed saves have left; the files themselves are whole, because a save puts them in place last.
 * Under the lock: what a save under way has written beside is not taken from it.
 */
export function sweep(content: string): Promise<void> {
  return withContentLock(content, 'clearing up', async () => {
    for (const folder of SAVED_INTO) {
      const names = await readdir(join(content, folder)).catch(() => []);
      for (const name of names.filter((n) => LEFT_OVER.test(n))) await rm(join(content, folder, name), { force: true });
    }
  });
}
