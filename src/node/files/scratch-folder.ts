import { mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isRunning } from './is-running.ts';

/**
 * Lends a folder of this process's own, outside of everybody's work, that is gone afterwards. What processes that were
 * killed have left of the same kind is cleared first.
 *
 * @param kind small letters, such as `papers`
 */
export async function withScratchFolder<T>(kind: string, work: (folder: string) => Promise<T>): Promise<T> {
  const start = `liftside-${kind}-`;
  for (const name of await readdir(tmpdir()).catch(() => [])) {
    const owner = /^(\d+)-\w{6}$/.exec(name.startsWith(start) ? name.slice(start.length) : '')?.[1];
    if (owner === undefined || Number(owner) === process.pid || isRunning(Number(owner))) continue;
    // Somebody else's cannot be removed, and need not.
    await rm(join(tmpdir(), name), { recursive: true, force: true }).catch(() => undefined);
  }
  const folder = await mkdtemp(join(tmpdir(), `${start}${process.pid}-`));
  try {
    return await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
