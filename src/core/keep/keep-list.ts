import { ENGLISH, inFigures, type Locale } from '../locale/index.ts';
/** So long are the pieces in which a file is fetched and kept, bytes. What has arrived whole needs no second fetch. */
export const PIECE_BYTES = 4 * 1024 * 1024;

export interface Piece {
  readonly bytes: number;
  /** SHA-256 (FIPS 180-4), hexadecimal. */
  readonly sha256: string;
}

export interface KeptFile {
  /** Below the base of the site, as a browser asks for it: `lessons/chain/`. */
  readonly path: string;
  /** Media type (RFC 9110, 8.3). */
  readonly type: string;
  readonly pieces: readonly Piece[];
}

/** A value that a lesson shows, in words. */
export interface KeptValue {
  /** Its row in the spec table: path on the site. */
  readonly path: string;
  readonly title: string;
  /** Whose it is, where several rows share an id. */
  readonly whose?: string;
  readonly text: string;
  readonly critical?: true;
}

/** A correction of a lesson, in words. */
export interface KeptCorrection {
  readonly id: string;
  /** YYYY-MM-DD */
  readonly on: string;
  readonly text: string;
}

/** What may change while a copy stays as it is. */
export interface KeptWords {
  readonly values: readonly KeptValue[];
  readonly corrections: readonly KeptCorrection[];
}

/** Everything that a lesson needs without a network, and what it says, as one build of the site has it. */
export interface KeepList extends KeptWords {
  readonly format: 'kept lesson';
  readonly version: 1;
  readonly lesson: string;
  readonly title: string;
  /** Day of the build, YYYY-MM-DD. */
  readonly made: string;
  /** Name of exactly these files: changes when one of them does. */
  readonly edition: string;
  readonly files: readonly KeptFile[];
}

/** Where the list of a lesson stands on the site. */
export function keepListPath(lesson: string): string {
  return `lessons/${lesson}/keep.json`;
}

/** Page of the site that shows what is kept, and that answers without a network for what is not. */
export const KEPT_PAGE = 'kept/';

/** Script of the site that answers without a network. */
export const KEPT_SCRIPT = 'kept.js';

/** @returns nothing where it is no list that this page understands, as of a later build */
export function readKeepList(value: unknown): KeepList | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { format, version, lesson, edition, files, values, corrections } = value as Partial<KeepList>;
  const whole =
    format === 'kept lesson' &&
    version === 1 &&
    typeof lesson === 'string' &&
    typeof edition === 'string' &&
    [files, values, corrections].every(Array.isArray);
  return whole ? (value as KeepList) : undefined;
}

/** Every piece of some lists once, by sum. */
export function piecesOf(lists: readonly KeepList[]): ReadonlyMap<string, Piece> {
  return new Map(
    lists.flatMap(({ files }) => files.flatMap(({ pieces }) => pieces.map((piece) => [piece.sha256, piece] as const))),
  );
}

/** Bytes of some pieces together. */
export function bytesOf(pieces: Iterable<Piece>): number {
  let sum = 0;
  for (const { bytes } of pieces) sum += bytes;
  return sum;
}

/** A size as people read it: `84 MB`, `640 kB`; megabytes of a million bytes (IEC 80000-13). */
export function sizeInWords(bytes: number, locale: Locale = ENGLISH): string {
  if (bytes < 999_500) return `${Math.max(1, Math.round(bytes / 1000))} kB`;
  const mega = bytes / 1_000_000;
  return mega < 9.95 ? `${inFigures(mega.toFixed(1), locale)} MB` : `${Math.round(mega)} MB`;
}
