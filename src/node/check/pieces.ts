import { randomUUID } from 'node:crypto';
import { closeSync, openSync, readdirSync, readSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ChangedMeanwhile, sumOf } from '../files/index.ts';

/** Bytes that are kept apart, and read back only where something of them is asked. */
export interface Piece {
  readonly bytes: () => Uint8Array;
  /** Where they lie, once they do. */
  readonly stored?: StoredPiece;
}

/** Where a piece lies, and the sum of its bytes, by which whoever believes the list of pieces can believe them. */
export interface StoredPiece {
  readonly file: string;
  readonly start: number;
  readonly end: number;
  readonly sum: string;
}

/** A piece that was kept is not there as it was. */
export class LostPiece extends ChangedMeanwhile {}

/** Files that are added to the first before they are put together: each edit adds one. */
const MOST_FILES = 12;

/** A piece that is not on the disk yet. */
export function pieceOf(bytes: Uint8Array): Piece {
  return { bytes: () => bytes };
}

/**
 * Pieces in a folder of their own, in files that are never changed: what is new is written into one more, and whoever
 * still reads the old ones finds them as they were, or not at all.
 */
export class PieceFolder {
  readonly #folder: string;

  /** @param folder absolute; need not be there */
  constructor(folder: string) {
    this.#folder = folder;
  }

  /** A piece that lies in the folder. Its bytes @throws LostPiece where they are no longer there as they were */
  at(stored: StoredPiece): Piece {
    return { stored, bytes: () => this.#read(stored) };
  }

  /**
   * Writes what is not stored yet into a new file. Of many files it makes one again, all but the largest, and that too
   * when most of it is no longer wanted.
   *
   * @param pieces all that are to be kept
   * @returns where each lies now
   * @throws LostPiece, or what the file system says
   */
  store(pieces: readonly Piece[]): ReadonlyMap<Piece, StoredPiece> {
    const wanted = new Map<string, number>();
    for (const { stored } of pieces)
      if (stored) wanted.set(stored.file, (wanted.get(stored.file) ?? 0) + stored.end - stored.start);
    const stays = this.#thoseThatStay(wanted);
    const places = new Map<Piece, StoredPiece>();
    const parts: Uint8Array[] = [];
    const file = `pieces-${randomUUID()}`;
    let length = 0;
    for (const piece of pieces) {
      if (piece.stored && stays.has(piece.stored.file)) {
        places.set(piece, piece.stored);
        continue;
      }
      const bytes = piece.bytes();
      places.set(piece, { file, start: length, end: length + bytes.length, sum: piece.stored?.sum ?? shortSum(bytes) });
      parts.push(bytes);
      length += bytes.length;
    }
    if (parts.length > 0) writeFileSync(join(this.#folder, file), Buffer.concat(parts), { flag: 'wx' });
    return places;
  }

  /** Takes away files of which no piece is kept any more. */
  clear(places: ReadonlyMap<Piece, StoredPiece>): void {
    const kept = new Set([...places.values()].map(({ file }) => file));
    for (const name of readdirSync(this.#folder))
      if (!kept.has(name)) rmSync(join(this.#folder, name), { force: true });
  }

  #thoseThatStay(wanted: ReadonlyMap<string, number>): ReadonlySet<string> {
    const worthIt = [...wanted].filter(([file, bytes]) => 2 * bytes >= this.#size(file));
    if (worthIt.length <= MOST_FILES) return new Set(worthIt.map(([file]) => file));
    const [largest] = worthIt.toSorted(([, a], [, b]) => b - a);
    return new Set(largest?.slice(0, 1).map(String));
  }

  #size(file: string): number {
    return statSync(join(this.#folder, file), { throwIfNoEntry: false })?.size ?? Infinity;
  }

  #read({ file, start, end, sum }: StoredPiece): Uint8Array {
    const bytes = Buffer.alloc(end - start);
    try {
      const handle = openSync(join(this.#folder, file), 'r');
      try {
        readSync(handle, bytes, 0, bytes.length, start);
      } finally {
        closeSync(handle);
      }
    } catch {
      throw new LostPiece(file);
    }
    if (shortSum(bytes) !== sum) throw new LostPiece(file);
    return bytes;
  }
}

/** 132 bits of a SHA-256: nobody finds other bytes for one, and a thousand of them are short. */
export function shortSum(bytes: Uint8Array | string): string {
  return sumOf(bytes).slice(0, 22);
}
