import { createHash } from 'node:crypto';
import { Transform } from 'node:stream';

/** Passes bytes on and knows, when they have ended, how many there were and their SHA-256 sum. */
export class Summing extends Transform {
  readonly #hash = createHash('sha256');
  readonly #seen: (bytes: number) => void;
  #bytes = 0;

  /** @param seen told of each piece, for progress */
  constructor(seen: (bytes: number) => void = () => {}) {
    super();
    this.#seen = seen;
  }

  override _transform(piece: Buffer, _encoding: BufferEncoding, done: (error: null, piece: Buffer) => void): void {
    this.#hash.update(piece);
    this.#bytes += piece.length;
    this.#seen(piece.length);
    done(null, piece);
  }

  /** To be asked once, after the end. */
  sum(): { readonly bytes: number; readonly sha256: string } {
    return { bytes: this.#bytes, sha256: this.#hash.digest('hex') };
  }
}
