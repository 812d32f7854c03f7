import { mkdir, open, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { type Bytes, bytesRead, type Reading, readFilmIndex } from '../../core/media/index.ts';
import { OutsideFailure } from '../failure.ts';
import { spaceAt } from '../media/disk.ts';
import { fingerprint } from '../media/fingerprint.ts';
import { sideBySide } from '../media/side-by-side.ts';
import type { Parts } from './job-kinds.ts';
import { type MediaStore, type RemoteFile, storeName } from './media-store.ts';
import { PartlyHere } from './partly-here.ts';

/** An index larger than this is not looked for, bytes. */
const MOST_INDEX = 256 << 20;
/** Where more of a file than this is needed it is fetched whole, share. */
const MOST_SHARE = 0.8;
/** Inputs of one job that are fetched side by side. */
const AT_ONCE = 4;
/** Room that is made by throwing away what no job needs just now, bytes. */
const ROOM = 1 << 30;

/** A camera file that is here in part, and how many jobs use it. */
interface Held {
  readonly here: Promise<PartlyHere>;
  users: number;
  /** What a reader asks for by the index; nothing where the whole file is needed. */
  parts?: Promise<((readings: readonly Reading[]) => Bytes[] | undefined) | undefined>;
}

/** Files of the store that the jobs of a worker read, as files of this machine; what is fetched once serves all of them. */
export class Inputs {
  readonly #folder: string;
  /** In the order of their last use. */
  readonly #held = new Map<string, Held>();
  #fetched = 0;
  #whole = 0;

  /** @param scratch folder of the worker */
  constructor(scratch: string) {
    this.#folder = join(scratch, 'inputs');
  }

  /** Bytes of the camera files that were fetched so far, and how many bytes these files have. */
  get told(): { readonly fetched: number; readonly whole: number } {
    return { fetched: this.#fetched, whole: this.#whole };
  }

  /**
   * Lends inputs as files that may be read as the parts say; all of one where they do not name it.
   *
   * @throws OutsideFailure when one is not what it should be
   */
  async during<T>(
    contents: readonly string[],
    parts: Parts | undefined,
    { store, signal }: { readonly store: MediaStore; readonly signal: AbortSignal },
    work: (paths: readonly string[]) => Promise<T>,
  ): Promise<T> {
    await mkdir(this.#folder, { recursive: true });
    const paths: string[] = [];
    const used: Held[] = [];
    try {
      await this.makeRoom();
      await sideBySide(
        signal,
        contents.map((content, i) => async () => {
          paths[i] = await this.#take(content, parts?.get(i), store, used);
        }),
        AT_ONCE,
      );
      return await work(paths);
    } finally {
      for (const held of used) held.users--;
    }
  }

  /** @param used told of what is kept from being thrown away */
  async #take(
    content: string,
    readings: readonly Reading[] | undefined,
    store: MediaStore,
    used: Held[],
  ): Promise<string> {
    const name = storeName(content);
    const known = this.#held.get(name) ?? (await this.#hold(name, store));
    if (!known) {
      const path = await store.get(name, this.#folder);
      await holdContent(path, content, store);
      return path;
    }
    known.users++;
    used.push(known);
    this.#held.delete(name);
    this.#held.set(name, known);
    try {
      const here = await known.here;
      const parts = readings && (await partsOf(here, known))?.(readings);
      const wanted = parts?.reduce((sum, [start, end]) => sum + end - start, 0) ?? here.bytes;
      if (parts && wanted < here.bytes * MOST_SHARE) await here.fetch(parts);
      else {
        await here.fetchAll();
        await holdContent(here.path, content, store);
      }
      return here.path;
    } catch (error) {
      this.#held.delete(name);
      throw error;
    }
  }

  /** Throws away files that no job uses while there is little room, those used longest ago first. */
  async makeRoom(): Promise<void> {
    for (const [name, held] of [...this.#held]) {
      if ((await spaceAt(this.#folder).catch(() => ROOM)) >= ROOM) return;
      if (held.users > 0) continue;
      this.#held.delete(name);
      await rm(join(this.#folder, name), { force: true });
    }
  }

  async #hold(name: string, store: MediaStore): Promise<Held | undefined> {
    const remote = await store.remote?.(name);
    const known = this.#held.get(name);
    if (known || !remote) return known;
    const isCamera = name.startsWith('file-');
    if (isCamera) this.#whole += remote.bytes;
    const counted: RemoteFile = {
      ...remote,
      read: async (start, end) => {
        const bytes = await remote.read(start, end);
        if (isCamera) this.#fetched += bytes.length;
        return bytes;
      },
    };
    const held: Held = { here: PartlyHere.at(join(this.#folder, name), counted), users: 0 };
    held.here.catch(() => this.#held.delete(name));
    this.#held.set(name, held);
    return held;
  }
}

/** @throws OutsideFailure when a whole file is another one */
async function holdContent(path: string, content: string, store: MediaStore): Promise<void> {
  if (storeName(content) !== content && (await fingerprint(path)) !== content)
    throw new OutsideFailure(
      `a camera file in the store ${store.shown} is not the one it was`,
      `delete ${storeName(content)} there; the next run puts it there again`,
    );
}

function partsOf(here: PartlyHere, held: Held): NonNullable<Held['parts']> {
  held.parts ??= readParts(here);
  return held.parts;
}

/** Reads the index of an MP4 or QuickTime file, and fetches nothing else of it. */
async function readParts(
  here: PartlyHere,
): Promise<((readings: readonly Reading[]) => Bytes[] | undefined) | undefined> {
  const outer: Bytes[] = [];
  let moov: Bytes | undefined;
  for (let at = 0; at < here.bytes; ) {
    const head = await bytesAt(here, at, Math.min(here.bytes, at + 16));
    if (head.length < 8) return undefined;
    const short = head.readUInt32BE(0);
    const type = head.toString('latin1', 4, 8);
    const length =
      short === 0 ? here.bytes - at : short === 1 && head.length === 16 ? Number(head.readBigUInt64BE(8)) : short;
    const end = at + length;
    if (length < 8 || end > here.bytes || !/^(ftyp|moov|mdat|free|skip|wide|uuid|udta|meta)$/.test(type))
      return undefined;
    if (type === 'moov' && (moov || length > MOST_INDEX || short === 1)) return undefined;
    if (type === 'moov') moov = [at + 8, end];
    outer.push([at, type === 'mdat' || type === 'free' || type === 'skip' ? Math.min(end, at + 16) : end]);
    at = end;
  }
  const index = moov && readFilmIndex(await bytesAt(here, ...moov), here.bytes);
  if (!index) return undefined;
  return (readings) => {
    const read = bytesRead(index, readings);
    return read && [...outer, ...read];
  };
}

async function bytesAt(here: PartlyHere, start: number, end: number): Promise<Buffer> {
  await here.fetch([[start, end]]);
  const file = await open(here.path, 'r');
  try {
    const bytes = Buffer.alloc(end - start);
    const { bytesRead: got } = await file.read(bytes, 0, bytes.length, start);
    return bytes.subarray(0, got);
  } finally {
    await file.close();
  }
}
