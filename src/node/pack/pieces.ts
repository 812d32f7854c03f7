import { type FileHandle, open } from 'node:fs/promises';
import { Readable, Writable } from 'node:stream';

/** Large enough that a film is few of them, small enough that a dozen under way are nothing, bytes. */
const PIECE = 1 << 19;

/**
 * Memory in which files are passed on, piece by piece, and that is used again once a piece is written: a film of
 * gigabytes goes through a few megabytes, where new memory for each would wait for the collector.
 */
export class Pieces {
  readonly #free: Buffer[] = [];
  readonly #known = new WeakSet<ArrayBufferLike>();

  take(): Buffer {
    const free = this.#free.pop();
    if (free) return free;
    const made = Buffer.allocUnsafeSlow(PIECE);
    this.#known.add(made.buffer);
    return made;
  }

  /** @param piece one that was taken, or a part of it, which nobody looks at any more; others are left alone */
  give(piece: Uint8Array): void {
    if (this.#known.has(piece.buffer)) this.#free.push(Buffer.from(piece.buffer));
  }
}

/** A file from its start to its end. @param path absolute */
export function readPieces(path: string, pieces: Pieces): Readable {
  let file: FileHandle | undefined;
  return new Readable({
    highWaterMark: PIECE,
    construct(done) {
      open(path, 'r').then((opened) => {
        file = opened;
        done();
      }, done);
    },
    read() {
      const piece = pieces.take();
      file?.read(piece, 0, piece.length, null).then(
        ({ bytesRead }) => this.push(bytesRead === 0 ? null : piece.subarray(0, bytesRead)),
        (error: Error) => this.destroy(error),
      );
    },
    destroy(error, done) {
      closed(file, error, done);
    },
  });
}

/** A new file. @param path absolute; refused where there is one */
export function writePieces(path: string, pieces: Pieces): Writable {
  let file: FileHandle | undefined;
  const write = async (piece: Uint8Array) => {
    for (let at = 0; file && at < piece.length; ) at += (await file.write(piece, at)).bytesWritten;
    pieces.give(piece);
  };
  return new Writable({
    highWaterMark: PIECE,
    construct(done) {
      open(path, 'wx').then((opened) => {
        file = opened;
        done();
      }, done);
    },
    write(piece: Buffer, _encoding, done) {
      write(piece).then(() => done(), done);
    },
    destroy(error, done) {
      closed(file, error, done);
    },
  });
}

function closed(file: FileHandle | undefined, error: Error | null, done: (error: Error | null) => void): void {
  if (!file) done(error);
  else
    file.close().then(
      () => done(error),
      (refused: Error) => done(error ?? refused),
    );
}
