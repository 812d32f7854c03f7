import { open } from 'node:fs/promises';

/** Boxes that begin with version, flags, time of creation, time of change (ISO/IEC 14496-12, 8.2.2, 8.3.2, 8.4.2). */
const TIMED_BOXES = ['mvhd', 'tkhd', 'mdhd'];
/** Boxes that hold them (8.2.1, 8.3.1, 8.4.1). */
const HOLDERS = ['moov', 'trak', 'mdia'];

/**
 * Where the index of an MP4 file tells when it was written, to be made zero: the same job is to give the same bytes
 * whenever it is done.
 */
export class IndexTimes {
  readonly #places: { readonly at: number; readonly bytes: number }[] = [];

  /** To be told of the index as it is written. @param from its place in the file, bytes */
  readonly found = (moov: Uint8Array, from: number): void => {
    const index = Buffer.from(moov.buffer, moov.byteOffset, moov.byteLength);
    this.#walk(index, 0, index.length, from);
  };

  #walk(index: Buffer, start: number, end: number, from: number): void {
    for (let box = start; box + 8 <= end; ) {
      const size = index.readUInt32BE(box);
      const type = index.toString('latin1', box + 4, box + 8);
      if (size < 8) return;
      if (HOLDERS.includes(type)) this.#walk(index, box + 8, Math.min(end, box + size), from);
      const body = box + 8;
      if (TIMED_BOXES.includes(type)) this.#places.push({ at: from + body + 4, bytes: index[body] === 1 ? 16 : 8 });
      box += size;
    }
  }

  /** @param path absolute path of the file, once it is whole */
  async blankOut(path: string): Promise<void> {
    const file = await open(path, 'r+');
    try {
      for (const { at, bytes } of this.#places) await file.write(Buffer.alloc(bytes), 0, bytes, at);
    } finally {
      await file.close();
    }
  }
}
