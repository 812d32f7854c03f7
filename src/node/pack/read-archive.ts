import yauzl, { type Entry, type ZipFile } from 'yauzl';
import { type ArchiveEntry, archiveProblem, isLitter, MANIFEST_FILE, SUMS_FILE } from '../../core/pack/index.ts';
import { diskReason } from '../files/index.ts';
import { type PackageFiles, PackageRefused } from './package-files.ts';

const AFRESH = 'nothing was unpacked; take the package afresh from where it came';

/**
 * A package in a zip file. Its directory is read whole and looked at before anything is unpacked, and its bytes are held
 * to what the directory says.
 *
 * @throws PackageRefused when it is no zip file, is cut off, or is not opened for what {@link archiveProblem} says
 */
export async function openArchive(path: string): Promise<PackageFiles> {
  const zip = await open(path);
  try {
    const entries = await entriesOf(zip);
    const problem = archiveProblem(entries.map(({ about }) => about));
    if (problem !== undefined) throw new PackageRefused(`${path} is not opened: ${problem}`, AFRESH);
    const top = topFolder(entries.map(({ about }) => about.name));
    const files = new Map<string, Entry>();
    for (const { entry, about } of entries)
      if (about.name.startsWith(top) && !about.name.endsWith('/') && !isLitter(about.name))
        files.set(about.name.slice(top.length), entry);
    return {
      sizes: new Map([...files].map(([name, entry]) => [name, entry.uncompressedSize])),
      ownSums: new Map([...files].map(([name, entry]) => [name, entry.crc32])),
      async read(name) {
        const entry = files.get(name);
        if (!entry) throw new Error(`${name} is not in the package`);
        return zip.openReadStreamPromise(entry);
      },
      async close() {
        zip.close();
      },
    };
  } catch (error) {
    zip.close();
    throw error instanceof PackageRefused ? error : cutOff(path, error);
  }
}

/** True for a zip file that holds what every package has at its top. */
export async function isPackageArchive(path: string): Promise<boolean> {
  try {
    const files = await openArchive(path);
    await files.close();
    return files.sizes.has(MANIFEST_FILE) && files.sizes.has(SUMS_FILE);
  } catch {
    return false;
  }
}

async function open(path: string): Promise<ZipFile> {
  try {
    // Names are decoded and judged here, so that an odd one is told by what it is called.
    return await yauzl.openPromise(path, { lazyEntries: true, autoClose: false, decodeStrings: false });
  } catch (error) {
    throw cutOff(path, error);
  }
}

function cutOff(path: string, error: unknown): PackageRefused {
  const said = diskReason(error);
  const reason = /end of central directory|central directory|unexpected EOF|out of bounds|truncated/i.test(said)
    ? 'it is no zip file, or one that was cut off or changed'
    : 'its directory cannot be read';
  return new PackageRefused(`${path} is not opened: ${reason} (${said})`, AFRESH);
}

async function entriesOf(zip: ZipFile): Promise<{ entry: Entry; about: ArchiveEntry }[]> {
  const found: { entry: Entry; about: ArchiveEntry }[] = [];
  for await (const entry of zip.eachEntry()) {
    const { uncompressedSize: bytes, compressedSize: packed, compressionMethod: method } = entry;
    const header = await zip.readLocalFileHeaderPromise(entry);
    const name = nameOf(entry.generalPurposeBitFlag, entry.fileNameRaw, entry.extraFields);
    found.push({
      entry,
      about: {
        ...{ name, bytes, packed, method },
        headerName: nameOf(header.generalPurposeBitFlag, header.fileName, []),
        encrypted: entry.isEncrypted(),
        mode: entry.externalFileAttributes >>> 16,
        offset: entry.relativeOffsetOfLocalHeader,
      },
    });
  }
  return found;
}

function nameOf(flags: number, raw: Buffer, extra: Entry['extraFields']): string {
  return yauzl.getFileNameLowLevel(flags, raw, extra, true);
}

/** Who zips the folder itself gets all of it below one more folder. */
function topFolder(names: readonly string[]): string {
  if (names.includes(SUMS_FILE)) return '';
  const [only, ...others] = names.filter((name) => name.endsWith(`/${SUMS_FILE}`) && name.split('/').length === 2);
  return only !== undefined && others.length === 0 ? only.slice(0, -SUMS_FILE.length) : '';
}
