import { hash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { PIECE_BYTES, type Piece } from '../../core/keep/index.ts';
import { placeFile, privateFolder } from '../files/index.ts';
import { FOOTAGE } from './footage-paths.ts';
import { changedAt, type FootageNotes, readFootageNotes, stampOf } from './place-footage.ts';

/** A file changed so shortly before it was read may be changed again at the same time of its disk's clock, ms. */
const UNSETTLED = 5000;

const piece = z.strictObject({ bytes: z.number().int().positive(), sha256: z.string().regex(/^[0-9a-f]{64}$/) });
const schema = z.strictObject({
  version: z.literal(1),
  /** Another length of pieces makes other sums. */
  pieceBytes: z.literal(PIECE_BYTES),
  /** Pieces by what tells one state of the original from another: bytes, time of change, number on its disk. */
  films: z.record(z.string(), z.array(piece)),
});
type Films = z.infer<typeof schema>['films'];

/**
 * The sums of what a built site holds, piece by piece. Those of films are kept beside the content, in
 * `.liftside/film-sums.json`, so that a film which is what it was is not read again by the next build. They hold for a
 * copy that is still as it was placed, of an original that has not changed by a byte of its size, by its time of change,
 * or by its place on the disk. The file may be lost at any time.
 */
export class FilmSums {
  readonly #site: string;
  readonly #content: string | undefined;
  readonly #notes: FootageNotes;
  readonly #known: Films;
  readonly #used: Films = {};
  /** Films that had to be read. */
  read = 0;

  private constructor(site: string, content: string | undefined, notes: FootageNotes, known: Films) {
    [this.#site, this.#content, this.#notes, this.#known] = [site, content, notes, known];
  }

  /**
   * @param site absolute path of the built site
   * @param content absolute path of the content folder; left out, every film is read and nothing is kept
   */
  static async open(site: string, content?: string): Promise<FilmSums> {
    return new FilmSums(site, content, await readFootageNotes(site), content === undefined ? {} : await kept(content));
  }

  /** @param file path in the site */
  async piecesOf(file: string): Promise<readonly Piece[]> {
    const path = join(this.#site, file);
    if (!file.startsWith(`${FOOTAGE}/`)) return sum(path);
    const name = file.slice(FOOTAGE.length + 1);
    const note = Object.hasOwn(this.#notes, name) ? this.#notes[name] : undefined;
    const asPlaced = note !== undefined && (await stampOf(path)) === note.copy;
    const known = asPlaced && Object.hasOwn(this.#known, note.original) ? this.#known[note.original] : undefined;
    if (!known) this.read += 1;
    const pieces = known ?? (await sum(path));
    if (asPlaced && (await stampOf(path)) === note.copy && Date.now() - changedAt(note.original) > UNSETTLED)
      this.#used[note.original] = [...pieces];
    return pieces;
  }

  /** Keeps the sums of the films that this build has used; a folder that cannot be written to only costs time. */
  async close(): Promise<void> {
    if (this.#content === undefined || JSON.stringify(this.#used) === JSON.stringify(this.#known)) return;
    try {
      await privateFolder(this.#content);
      const films: z.infer<typeof schema> = { version: 1, pieceBytes: PIECE_BYTES, films: this.#used };
      await placeFile(sumsFile(this.#content), JSON.stringify(films));
    } catch {
      // Read-only content is fine to build.
    }
  }
}

async function sum(path: string): Promise<Piece[]> {
  // A stream takes the room of a whole piece twice, for a page as for a film.
  if ((await stat(path)).size < PIECE_BYTES) {
    const bytes = await readFile(path);
    return bytes.length === 0 ? [] : [{ bytes: bytes.length, sha256: hash('sha256', bytes) }];
  }
  const pieces: Piece[] = [];
  for await (const chunk of createReadStream(path, { highWaterMark: PIECE_BYTES }))
    pieces.push({ bytes: chunk.length, sha256: hash('sha256', chunk) });
  return pieces;
}

function sumsFile(content: string): string {
  return join(content, '.liftside', 'film-sums.json');
}

async function kept(content: string): Promise<Films> {
  try {
    return schema.parse(JSON.parse(await readFile(sumsFile(content), 'utf8'))).films;
  } catch {
    // Missing, damaged, or of another version: made anew.
    return {};
  }
}
