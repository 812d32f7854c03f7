import { open, truncate } from 'node:fs/promises';
import { type Bytes, joinBytes } from '../../core/media/index.ts';
import { sideBySide } from '../media/side-by-side.ts';
import type { RemoteFile } from './media-store.ts';

/** No more than this is asked for at once, bytes, and so many times side by side. */
const MOST = 8 << 20;
const AT_ONCE = 6;

/**
 * A file of the store as a file of this machine that is as long, but holds only what was fetched so far; the rest reads
 * as zeros, and takes no room where the disk knows files with holes.
 */
export class PartlyHere {
  readonly path: string;
  readonly bytes: number;
  readonly #from: RemoteFile;
  /** Each block: nothing, being fetched, or here. */
  readonly #blocks = new Map<number, Promise<void>>();

  private constructor(path: string, from: RemoteFile) {
    this.path = path;
    this.bytes = from.bytes;
    this.#from = from;
  }

  /** Makes one that holds nothing yet. */
  static async at(path: string, from: RemoteFile): Promise<PartlyHere> {
    await (await open(path, 'w')).close();
    await truncate(path, from.bytes);
    return new PartlyHere(path, from);
  }

  fetchAll(): Promise<void> {
    return this.fetch([[0, this.bytes]]);
  }

  /** Resolves when these bytes are here, each fetched once whoever asks. @throws as the store does */
  async fetch(wanted: readonly Bytes[]): Promise<void> {
    const { block } = this.#from;
    const blocks = joinBytes(
      wanted.map(([start, end]) => [Math.floor(start / block), Math.ceil(Math.min(end, this.bytes) / block)]),
    );
    const runs: Bytes[] = [];
    const waited: Promise<void>[] = [];
    for (const [first, end] of blocks)
      for (let at = first; at < end; at++) {
        const known = this.#blocks.get(at);
        const last = runs.at(-1);
        if (known) waited.push(known);
        else if (last && last[1] === at && (at + 1 - last[0]) * block <= MOST)
          runs[runs.length - 1] = [last[0], at + 1];
        else runs.push([at, at + 1]);
      }
    const open = new Map(runs.map((run) => [run, gate()]));
    for (const [[first, end], { come }] of open) {
      // Whoever waits hears of a failure by the promise of this call.
      come.catch(() => undefined);
      for (let at = first; at < end; at++) this.#blocks.set(at, come);
    }
    const fetching = sideBySide(
      undefined,
      runs.map((run) => async () => {
        const [first, end] = run;
        await this.#take(first * block, Math.min(this.bytes, end * block));
        open.get(run)?.resolve();
        open.delete(run);
      }),
      AT_ONCE,
    ).catch((error: unknown) => {
      for (const [[first, end], { reject }] of open) {
        for (let at = first; at < end; at++) this.#blocks.delete(at);
        reject(error);
      }
      throw error;
    });
    await Promise.all([fetching, ...waited]);
  }

  async #take(start: number, end: number): Promise<void> {
    const bytes = await this.#from.read(start, end);
    const file = await open(this.path, 'r+');
    try {
      for (let at = 0; at < bytes.length; )
        at += (await file.write(bytes, at, bytes.length - at, start + at)).bytesWritten;
    } finally {
      await file.close();
    }
  }
}

function gate(): { readonly come: Promise<void>; resolve(): void; reject(error: unknown): void } {
  let [resolve, reject] = [() => {}, (_: unknown) => {}];
  const come = new Promise<void>((done, failed) => {
    [resolve, reject] = [done, failed];
  });
  return { come, resolve, reject };
}
