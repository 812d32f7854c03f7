import { createReadStream } from 'node:fs';
import { lstat, readdir, stat } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { isLitter } from '../../core/pack/index.ts';
import { OutsideFailure } from '../failure.ts';
import { fileInside } from '../files/index.ts';
import { type PackageFiles, PackageRefused } from './package-files.ts';
import { openArchive } from './read-archive.ts';

/**
 * A package to read, in a folder or a zip file.
 *
 * @param path absolute
 * @throws OutsideFailure when there is nothing of the name; PackageRefused when it is not opened
 */
export async function openPackage(path: string): Promise<PackageFiles> {
  const known = await stat(path).catch(() => undefined);
  if (!known)
    throw new OutsideFailure(`there is no ${path}`, 'name the folder or the zip file that pack has made', true);
  return known.isDirectory() ? openFolder(path) : openArchive(path);
}

async function openFolder(folder: string): Promise<PackageFiles> {
  const sizes = new Map<string, number>();
  for (const entry of await readdir(folder, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    const name = relative(folder, path).split(sep).join('/');
    if (isLitter(name)) continue;
    const known = await lstat(path);
    if (known.isDirectory()) continue;
    if (!known.isFile())
      throw new PackageRefused(
        `${path} is not opened: ${known.isSymbolicLink() ? 'it is a link' : 'it is neither a file nor a folder'}`,
        'a package holds plain files; take it afresh from where it came',
      );
    sizes.set(name, known.size);
  }
  return {
    sizes,
    read: async (name) => createReadStream(fileInside(folder, name)),
    close: async () => undefined,
  };
}
