import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/**
 * The folder beside the content where Liftside keeps what it can make again: measurements, rendered programmes.
 * It tells git to leave it out.
 *
 * @param content absolute path of the content folder
 * @returns absolute path of `.liftside` in it, made if need be
 */
export async function privateFolder(content: string): Promise<string> {
  const folder = join(content, '.liftside');
  await mkdir(folder, { recursive: true });
  await writeFile(join(folder, '.gitignore'), '*\n', { flag: 'wx' }).catch(() => undefined);
  return folder;
}
