import { hash } from 'node:crypto';
import type { Readable } from 'node:stream';
import { COLLECTION_FILE, MOST_MANIFEST, readCollection, type Signed } from '../../core/collections/index.ts';
import { OutsideFailure } from '../failure.ts';
import { diskReason } from '../files/index.ts';
import { type PackageFiles, PackageRefused } from '../pack/index.ts';
import { fingerprintOf, isSigned } from './keys.ts';

/** A collection whose signature and sums hold, with its files. */
export interface Verified extends Signed {
  /** The bytes of `collection.yaml`. */
  readonly about: Buffer;
  /** By path in it. */
  readonly files: ReadonlyMap<string, Buffer>;
}

const AFRESH = 'none of it was taken; ask the publisher for it';

/**
 * Reads a collection and holds it to its signature and sums. The signature is looked at before any other file is read;
 * no file is read further than it says it is long; files that it does not name are not read at all.
 *
 * @throws PackageRefused by the name of what is amiss
 */
export async function verifyCollection(source: PackageFiles, signal: AbortSignal): Promise<Verified> {
  if (source.sizes.size > 0 && !source.sizes.has(COLLECTION_FILE))
    throw new PackageRefused(`there is no ${COLLECTION_FILE}`, 'correct the place in collections.yaml');
  const about = await read(source, COLLECTION_FILE, MOST_MANIFEST, signal);
  if (!about.whole) throw new PackageRefused(`${COLLECTION_FILE} has more than ${MOST_MANIFEST} bytes`, AFRESH);
  const manifest = readCollection(about.bytes.toString('utf8'));
  if (!manifest.ok) throw new PackageRefused(manifest.problem, manifest.help);
  const { name, version } = manifest.value;
  if (!isSigned(manifest.value))
    throw new PackageRefused(
      `${name} ${version}: its signature does not hold: it was changed after it was signed`,
      AFRESH,
    );
  const files = new Map<string, Buffer>();
  for (const { path, bytes, sha256 } of manifest.value.files) {
    if (source.sizes.size > 0 && !source.sizes.has(path))
      throw new PackageRefused(`${name} ${version}: ${path} is missing`, AFRESH);
    const file = await read(source, path, bytes, signal);
    if (!file.whole || file.bytes.length !== bytes || hash('sha256', file.bytes) !== sha256)
      throw new PackageRefused(`${name} ${version}: ${path} is not what was signed`, AFRESH);
    files.set(path, file.bytes);
  }
  const sum = hash('sha256', about.bytes);
  return { manifest: manifest.value, about: about.bytes, files, sum, signer: fingerprintOf(manifest.value.key) };
}

/** Bytes of a file, up to a limit. */
async function read(
  source: PackageFiles,
  path: string,
  most: number,
  signal: AbortSignal,
): Promise<{ readonly bytes: Buffer; readonly whole: boolean }> {
  const stream: Readable = await source.read(path);
  const pieces: Buffer[] = [];
  let length = 0;
  try {
    for await (const piece of stream) {
      signal.throwIfAborted();
      const bytes = Buffer.from(piece);
      length += bytes.length;
      if (length > most) return { bytes: Buffer.alloc(0), whole: false };
      pieces.push(bytes);
    }
  } catch (error) {
    signal.throwIfAborted();
    throw new OutsideFailure(`${path} broke off: ${diskReason(error)}`, 'what is in use stays; try again');
  } finally {
    stream.destroy();
  }
  return { bytes: Buffer.concat(pieces), whole: true };
}
