import { lstat, mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { OutsideFailure } from '../failure.ts';

/**
 * The folder beside the content where Liftside keeps what it can make again: measurements, rendered programmes.
 * It tells git to leave it out. A content folder that came from somebody else may bring one that is a link: what is
 * written and cleared away there would be somebody's own.
 *
 * @param content absolute path of the content folder
 * @param below names of folders in it, made if need be
 * @returns absolute path of `.liftside`, or of the last folder below it
 * @throws OutsideFailure when one of them is a link
 */
export async function privateFolder(content: string, ...below: readonly string[]): Promise<string> {
  const own = join(content, '.liftside');
  let folder = own;
  for (const name of ['', ...below]) {
    folder = join(folder, name);
    if (await isLink(folder))
      throw new OutsideFailure(
        `${folder} is a link`,
        'Liftside writes and clears away there, so it has to be a folder of its own: remove the link',
      );
    // One by one: of several at once the system does not say that the disk is read-only.
    await mkdir(folder).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== 'EEXIST') throw error;
    });
  }
  await writeFile(join(own, '.gitignore'), '*\n', { flag: 'wx' }).catch(async (error: NodeJS.ErrnoException) => {
    // A full disk leaves an empty one, which would never be filled.
    if (error.code !== 'EEXIST') await rm(join(own, '.gitignore'), { force: true }).catch(() => undefined);
  });
  return folder;
}

async function isLink(path: string): Promise<boolean> {
  const found = await lstat(path).catch(() => undefined);
  return found?.isSymbolicLink() === true;
}
