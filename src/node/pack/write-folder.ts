import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { SUMS_FILE } from '../../core/pack/index.ts';
import { placeFolder } from '../files/index.ts';
import { listEntry, type PackEntry, readEntry, type WrittenFile } from './entry.ts';
import { Pieces, writePieces } from './pieces.ts';
import { Summing } from './summing.ts';

export interface WriteWishes {
  /** Absolute path. */
  readonly to: string;
  /** Absolute path of the content folder, which is never replaced. */
  readonly content: string;
  readonly signal: AbortSignal;
  /** Told of each piece that was written, bytes. */
  readonly wrote: (bytes: number) => void;
  /** Every entry of a zip file is pressed a little: some readers refuse stored ones whose length comes after them. */
  readonly pressAll?: boolean;
}

/**
 * A package as a folder, whole or not at all.
 *
 * @throws OutsideFailure when the folder may not be replaced or the disk refuses
 */
export function writeFolder(entries: readonly PackEntry[], wishes: WriteWishes): Promise<readonly WrittenFile[]> {
  const { to, content, signal, wrote } = wishes;
  return placeFolder({ target: to, content, holds: 'a package', what: 'packing', signal }, async (next) => {
    const written: WrittenFile[] = [];
    const pieces = new Pieces();
    for (const entry of entries) {
      const file = join(next, entry.path);
      await mkdir(dirname(file), { recursive: true });
      const summing = new Summing(wrote);
      await pipeline(readEntry(entry, pieces), summing, writePieces(file, pieces), { signal });
      written.push({ path: entry.path, ...summing.sum() });
    }
    const list = listEntry(written);
    await writeFile(join(next, SUMS_FILE), list.text);
    return [...written, list.file];
  });
}
