import { hash } from 'node:crypto';
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { gt } from 'semver';
import { COLLECTION_FILE, filesToShare, manifestYaml, readCollection } from '../../core/collections/index.ts';
import type { CollectionManifest, Collections } from '../../core/model/index.ts';
import { OutsideFailure } from '../failure.ts';
import { fileInside, type LoadedShop, placeFolder } from '../files/index.ts';
import { readPlain } from '../files/read-plain.ts';
import { PackageRefused } from '../pack/index.ts';
import { type PublisherKey, signManifest } from './keys.ts';
import { openFolder } from './sources.ts';
import { type Verified, verifyCollection } from './verify.ts';

/** A collection that a shop gives, as it has written it into `collections.yaml`. */
export type Published = NonNullable<Collections['publishes']>[number];

export interface PublishWishes {
  /** Absolute path of the folder to be made. */
  readonly target: string;
  readonly version: string;
  readonly key: PublisherKey;
  readonly notes?: string | undefined;
  readonly signal: AbortSignal;
}

/** The files of a collection as they would be published now. */
export async function filesOf(
  { content, shop, texts }: LoadedShop,
  { files }: Published,
): Promise<ReadonlyMap<string, Buffer>> {
  const named = filesToShare(shop, files, texts.keys());
  if (!named.ok) throw new PackageRefused(named.problem, named.help);
  const read = named.value.map(async (path) => [path, await readPlain(fileInside(content, path))] as const);
  return new Map(await Promise.all(read));
}

/** The version that lies in the folder already; nothing where there is none. @throws PackageRefused where it is amiss */
export async function versionBefore(target: string, signal: AbortSignal): Promise<Verified | undefined> {
  try {
    const files = await openFolder(target);
    return await verifyCollection(files, signal).finally(() => files.close());
  } catch (error) {
    if (error instanceof OutsideFailure) return undefined;
    if (error instanceof PackageRefused && error.message.endsWith(`holds no ${COLLECTION_FILE}`)) return undefined;
    throw error;
  }
}

/**
 * Writes a collection: its files, and `collection.yaml` with their sums, signed. Whole or not at all.
 *
 * @throws PackageRefused where the version does not follow the one that is there, or a file is one that nobody would take
 */
export async function publish(
  { content, shop }: LoadedShop,
  { name, title, licence }: Published,
  files: ReadonlyMap<string, Buffer>,
  before: Verified | undefined,
  { target, version, key, notes, signal }: PublishWishes,
): Promise<CollectionManifest> {
  if (before && before.manifest.name !== name)
    throw new PackageRefused(`${target} holds ${before.manifest.name}`, 'name another folder; nothing was written');
  if (before && !gt(version, before.manifest.version))
    throw new PackageRefused(
      `${version} does not follow ${before.manifest.version}, which lies in ${target}`,
      'shops take only a version that is newer (SemVer 2.0.0, 11); nothing was written',
    );
  const manifest = signManifest(
    {
      format: 'liftside-collection',
      ...{ name, version, title, publisher: shop.info.name, licence },
      ...(shop.info.invented ? { invented: true as const } : {}),
      ...(notes === undefined ? {} : { notes }),
      files: [...files].map(([path, bytes]) => ({ path, bytes: bytes.length, sha256: hash('sha256', bytes) })),
    },
    key,
  );
  const text = manifestYaml(manifest);
  // Whoever takes it holds it to the same.
  const read = readCollection(text);
  if (!read.ok) throw new PackageRefused(read.problem, 'nothing was written');
  const wishes = { target, content, holds: 'a collection', what: 'publishing', signal } as const;
  await placeFolder(wishes, async (next) => {
    for (const [path, bytes] of files) {
      await mkdir(dirname(join(next, path)), { recursive: true });
      await writeFile(join(next, path), bytes);
    }
    await writeFile(join(next, COLLECTION_FILE), text);
  });
  return manifest;
}
