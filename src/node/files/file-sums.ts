import { hash } from 'node:crypto';
import { type BigIntStats, lstatSync, statSync } from 'node:fs';
import { open, rm, stat } from 'node:fs/promises';
import { besideOf } from './place-file.ts';

/** What a file was when its bytes were last looked at, and the sum of these; without a stamp it is looked at again. */
export interface FileSum {
  readonly stamp?: string;
  readonly sum: string;
}

/** So long a file has to have been left alone before its stamp is taken for its bytes, ns: times on FAT are even seconds. */
const AT_REST_NS = 3_000_000_000n;

/** SHA-256 of bytes or of a text. */
export function sumOf(bytes: Uint8Array | string): string {
  return hash('sha256', bytes, 'base64url');
}

/**
 * Sums of files, from the disk only where a file may have changed.
 *
 * A file's stamp is where it lies on the disk, its size, and the times of its last change of content and of anything,
 * of which nobody can set the second. It stands for the bytes only if it was already old when they were read, by the
 * clock of the file system: of a file written a moment ago, the next writing could leave the same stamp.
 */
export class FileSums {
  readonly #before: ReadonlyMap<string, FileSum>;
  /** By the clock of the file system, ns. */
  readonly #now: bigint;
  readonly #found = new Map<string, FileSum>();

  /**
   * @param folder absolute; on the file system of the files. Where it cannot be written to, nothing is certain
   * @param before sums that were found earlier
   */
  static async open(folder: string, before: ReadonlyMap<string, FileSum>): Promise<FileSums> {
    const path = besideOf(`${folder}/clock`);
    const file = await open(path, 'wx').catch(() => undefined);
    if (!file) return FileSums.uncertain();
    try {
      return new FileSums(before, (await file.stat({ bigint: true })).mtimeNs);
    } finally {
      await file.close();
      await rm(path, { force: true });
    }
  }

  /** Of files of which nothing is known, in a place where nothing can be kept. */
  static uncertain(): FileSums {
    return new FileSums(new Map(), 0n);
  }

  private constructor(before: ReadonlyMap<string, FileSum>, now: bigint) {
    this.#before = before;
    this.#now = now;
  }

  /** The sum of a file that is as it was when it was looked at; nothing where it may have changed, or is none, or a link. */
  known(file: string, path: string): string | undefined {
    const before = this.#before.get(file);
    if (before?.stamp === undefined) return undefined;
    const is = lstatSync(path, { bigint: true, throwIfNoEntry: false });
    if (!is?.isFile() || stampOf(is) !== before.stamp) return undefined;
    this.#found.set(file, before);
    return before.sum;
  }

  /** Reads a file, and notes its sum. What happens to it while it is read shows in its stamp the next time. */
  async read(file: string, path: string, read: () => Promise<Buffer>): Promise<Buffer> {
    const is = await stat(path, { bigint: true }).catch(() => undefined);
    const bytes = await read();
    const last = is && (is.mtimeNs > is.ctimeNs ? is.mtimeNs : is.ctimeNs);
    const rests = is !== undefined && last !== undefined && last + AT_REST_NS < this.#now;
    this.#found.set(file, { sum: sumOf(bytes), ...(rests && { stamp: stampOf(is) }) });
    return bytes;
  }

  /** The sum of a file that was looked at. */
  sum(file: string): string | undefined {
    return this.#found.get(file)?.sum;
  }

  /** Of all files that were looked at, for the next time. */
  get found(): ReadonlyMap<string, FileSum> {
    return this.#found;
  }
}

/** Where a file lies on the disk, its size, and when it was last changed; empty where there is none. */
export function stampOfFile(path: string): string {
  const is = statSync(path, { bigint: true, throwIfNoEntry: false });
  return is ? stampOf(is) : '';
}

function stampOf({ dev, ino, size, mtimeNs, ctimeNs }: BigIntStats): string {
  return `${dev} ${ino} ${size} ${mtimeNs} ${ctimeNs}`;
}
