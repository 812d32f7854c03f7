import type { Readable } from 'node:stream';

/** The files of a package, in a folder or in an archive; its names were looked at. */
export interface PackageFiles {
  /** Bytes by path in the package. */
  readonly sizes: ReadonlyMap<string, number>;
  /** The sum that the archive itself keeps of a file's bytes (CRC-32); absent in a folder. */
  readonly ownSums?: ReadonlyMap<string, number>;
  /** @throws when it cannot be read */
  read(path: string): Promise<Readable>;
  close(): Promise<void>;
}

/** What was named is no package, or one that is not opened; nothing of it was unpacked. */
export class PackageRefused extends Error {
  readonly help: string;

  constructor(problem: string, help: string) {
    super(problem);
    this.name = 'PackageRefused';
    this.help = help;
  }
}

/** @throws PackageRefused when the text is longer than it may be */
export async function readText(files: PackageFiles, path: string, most: number): Promise<string> {
  const size = files.sizes.get(path) ?? 0;
  if (size > most)
    throw new PackageRefused(
      `${path} of the package has ${size} bytes, more than the ${most} that such a text may have`,
      'it was not made by pack, or was changed since',
    );
  const pieces: Buffer[] = [];
  for await (const piece of await files.read(path)) pieces.push(Buffer.from(piece));
  return Buffer.concat(pieces).toString('utf8');
}
