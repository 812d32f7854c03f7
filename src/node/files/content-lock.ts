import { realpath } from 'node:fs/promises';
import { join } from 'node:path';
import { withLock } from './lock.ts';
import { privateFolder } from './private-folder.ts';

/**
 * Does work that changes a content folder: one writer at a time, whatever it is (the cutting room, a phone's log, a
 * command) and in whatever process. Not to be taken by whoever holds it already.
 *
 * @param content absolute path of the content folder
 * @param what is done, as the one who waits is told: "a save"
 * @throws Locked when another one still writes after ten seconds
 */
export async function withContentLock<T>(content: string, what: string, work: () => Promise<T>): Promise<T> {
  const folder = await privateFolder(await realpath(content));
  return withLock(join(folder, 'lock'), { what }, work);
}
