import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';

/** What a save that was killed half-way leaves beside its file: a dot, the name, a UUID. */
const LEFT_OVER = /^\..+\.[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** Clears away what killed saves have left; the files themselves are whole, because a save puts them in place last. */
export async function sweep(content: string): Promise<void> {
  for (const folder of ['recordings', 'lessons']) {
    const names = await readdir(join(content, folder)).catch(() => []);
    for (const name of names.filter((n) => LEFT_OVER.test(n))) await rm(join(content, folder, name), { force: true });
  }
}
