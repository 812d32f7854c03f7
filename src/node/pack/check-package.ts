import { Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { crc32 } from 'node:zlib';
import { MANIFEST_FILE, type PackageManifest, readManifest, readSums, SUMS_FILE } from '../../core/pack/index.ts';
import { OutsideFailure } from '../failure.ts';
import { type PackageFiles, PackageRefused, readText } from './package-files.ts';
import { Summing } from './summing.ts';

/** What a package is, and what of it is not as it was packed; paths in it, in order. */
export interface PackageState {
  /** Absent where `package.json` is missing or is not what was packed. */
  readonly manifest?: PackageManifest;
  readonly whole: boolean;
  /** Their bytes are not those that were packed. */
  readonly damaged: readonly string[];
  /** The archive keeps them well, but they are other files than those that were packed: somebody has changed them. */
  readonly changed: readonly string[];
  readonly missing: readonly string[];
  /** There, and not in the list; the pages know nothing of them. */
  readonly extra: readonly string[];
  /** SHA-256 of each file that is whole. */
  readonly sums: ReadonlyMap<string, string>;
}

const MOST_MANIFEST = 1_000_000;
const MOST_SUMS = 8_000_000;

/**
 * Compares every file of a package with its list.
 *
 * @param seen told of each piece that was read, bytes
 * @throws PackageRefused when it has no list or one that cannot be read, or is of a version that is not known yet
 */
export async function checkPackage(
  files: PackageFiles,
  signal: AbortSignal,
  seen: (bytes: number) => void = () => {},
): Promise<PackageState> {
  if (!files.sizes.has(SUMS_FILE))
    throw new PackageRefused(
      files.sizes.has(MANIFEST_FILE) ? `the package has no ${SUMS_FILE}` : 'this is no package of Liftside',
      files.sizes.has(MANIFEST_FILE)
        ? 'without the list it cannot be known whether it is whole: take it afresh from where it came'
        : 'name the folder or the zip file that pack has made',
    );
  const list = readSums(await textOf(files, SUMS_FILE, MOST_SUMS));
  if (!list.ok) throw new PackageRefused(list.problem, list.help);
  const manifest = files.sizes.has(MANIFEST_FILE)
    ? readManifest(await textOf(files, MANIFEST_FILE, MOST_MANIFEST))
    : undefined;
  const [damaged, changed, missing]: [string[], string[], string[]] = [[], [], []];
  const sums = new Map<string, string>();
  for (const { path, sha256 } of list.value) {
    if (!files.sizes.has(path)) {
      missing.push(path);
      continue;
    }
    const is = await sumOf(files, path, signal, seen);
    if (is?.sha256 === sha256) sums.set(path, sha256);
    else if (is && files.ownSums?.get(path) === is.crc) changed.push(path);
    else damaged.push(path);
  }
  const listed = new Set(list.value.map(({ path }) => path));
  const extra = [...files.sizes.keys()].filter((path) => path !== SUMS_FILE && !listed.has(path)).toSorted();
  // A manifest that is as it was packed and cannot be read was made by a newer Liftside, or by nobody's.
  if (manifest && !manifest.ok && sums.has(MANIFEST_FILE)) throw new PackageRefused(manifest.problem, manifest.help);
  return {
    ...(manifest?.ok && sums.has(MANIFEST_FILE) ? { manifest: manifest.value } : {}),
    whole: damaged.length + changed.length + missing.length === 0,
    ...{ damaged, changed, missing, extra, sums },
  };
}

async function textOf(files: PackageFiles, path: string, most: number): Promise<string> {
  try {
    return await readText(files, path, most);
  } catch (error) {
    if (error instanceof PackageRefused) throw error;
    throw new PackageRefused(
      `${path} of the package cannot be read: ${error instanceof Error ? error.message : error}`,
      'take the package afresh from where it came',
    );
  }
}

/** Nothing where the bytes cannot be read to their end. */
async function sumOf(
  files: PackageFiles,
  path: string,
  signal: AbortSignal,
  seen: (bytes: number) => void,
): Promise<{ readonly sha256: string; readonly crc: number } | undefined> {
  let crc = 0;
  const summing = new Summing(seen);
  const end = new Writable({
    write(piece: Buffer, _encoding, done) {
      crc = crc32(piece, crc);
      done();
    },
  });
  try {
    await pipeline(await files.read(path), summing, end, { signal });
    return { sha256: summing.sum().sha256, crc };
  } catch (error) {
    if (signal.aborted || error instanceof OutsideFailure) throw error;
    return undefined;
  }
}
