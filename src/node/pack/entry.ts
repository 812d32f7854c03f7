import { hash } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { SUMS_FILE, sumsText } from '../../core/pack/index.ts';
import { type Pieces, readPieces } from './pieces.ts';

/** One file of a package that is being made: bytes made for it, or a file to copy. */
export interface PackEntry {
  /** Path in the package, with `/`. */
  readonly path: string;
  readonly bytes: number;
  readonly from: { readonly bytes: Uint8Array } | { readonly file: string };
}

/** A file of a package that was written. */
export interface WrittenFile {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

export function entryOf(path: string, content: string | Uint8Array): PackEntry {
  const bytes = typeof content === 'string' ? Buffer.from(content) : content;
  return { path, bytes: bytes.byteLength, from: { bytes } };
}

/** A file that is copied. @param file absolute path */
export async function fileEntry(path: string, file: string): Promise<PackEntry> {
  return { path, bytes: (await stat(file)).size, from: { file } };
}

export function readEntry({ from }: PackEntry, pieces: Pieces): Readable {
  // As one piece: a buffer given as it is would be taken for a list of numbers.
  return 'file' in from ? readPieces(from.file, pieces) : Readable.from([Buffer.from(from.bytes)]);
}

/** The list of all that was written, which is written last. */
export function listEntry(written: readonly WrittenFile[]): { readonly text: string; readonly file: WrittenFile } {
  const text = sumsText(written);
  const sha256 = hash('sha256', text);
  return { text, file: { path: SUMS_FILE, bytes: Buffer.byteLength(text), sha256 } };
}
