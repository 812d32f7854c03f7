import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { COLLECTION_FILE } from '../../core/collections/index.ts';
import { OutsideFailure } from '../failure.ts';
import { openPackage, type PackageFiles, PackageRefused } from '../pack/index.ts';
import { openAddress } from './address-source.ts';
import { openRepository } from './git-source.ts';
import type { Fetching, Use } from './use.ts';

/**
 * Opens the place that a collection comes from: a folder, an https address, or a git repository.
 *
 * @param content absolute path of the content folder, which a folder is counted from
 * @throws OutsideFailure when it cannot be reached; PackageRefused when it holds what no collection holds, by name
 */
export async function openSource(use: Use, content: string, fetching: Fetching): Promise<PackageFiles> {
  if (use.address !== undefined) return openAddress(use.address, fetching);
  if (use.git !== undefined) return openRepository(use.git, use.path, fetching);
  return openFolder(resolve(content, use.folder ?? '.'));
}

/** A collection in a folder or in a zip file. @param path absolute */
export async function openFolder(path: string): Promise<PackageFiles> {
  if (!(await stat(path).catch(() => undefined)))
    throw new OutsideFailure(`there is no ${path}`, 'put in the stick, or correct the place in collections.yaml');
  const files = await openPackage(path);
  if (files.sizes.has(COLLECTION_FILE)) return files;
  await files.close();
  throw new PackageRefused(`${path} holds no ${COLLECTION_FILE}`, 'name the folder that was published');
}
