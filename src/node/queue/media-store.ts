import { setTimeout as pause } from 'node:timers/promises';
import { OutsideFailure } from '../failure.ts';

/** Holds what jobs read and make, for every machine. Names are those of {@link storeName} or of results. */
export interface MediaStore {
  /** Where it is, as it may be shown. */
  readonly shown: string;
  has(name: string): Promise<boolean>;
  /** Puts a file or folder there, whole or not at all; what is there under that name stays: it is the same. */
  put(path: string, name: string): Promise<void>;
  /**
   * A file or folder of the store as a path of this machine, to be read only.
   *
   * @param folder where it may be fetched to
   * @throws NotInStore when it is not there
   */
  get(name: string, folder: string): Promise<string>;
  /**
   * A single file of the store that lies on another machine, to be fetched in parts.
   *
   * @returns nothing where it is a folder
   * @throws NotInStore when it is not there
   */
  remote?(name: string): Promise<RemoteFile | undefined>;
}

/** A file that lies elsewhere. */
export interface RemoteFile {
  readonly bytes: number;
  /** It is read in whole blocks, each held against its sum, bytes. */
  readonly block: number;
  /** @param start of a block @param end of a block, or of the file */
  read(start: number, end: number): Promise<Uint8Array>;
}

/** The store cannot be reached just now; it may come back. */
export class StoreAway extends OutsideFailure {}

/** Something that should be in the store is not. */
export class NotInStore extends OutsideFailure {
  constructor(name: string, store: string) {
    super(`${name} is not in the store ${store}`, 'run the command again: it puts there what is missing');
  }
}

/** Names of results: task, sum of all that decides it, ending. */
const RESULT = /^[a-z][a-z-]{0,40}-[0-9a-f]{32}\.[a-z0-9]{1,8}$/;
/** Content of other files, such as a camera's: their fingerprint. */
const FINGERPRINT = /^[0-9a-f]{64}$/;
const STORED = /^file-[0-9a-f]{64}$/;

/** True for what a job may name as its input: nothing that leads anywhere but into the store. */
export function isContent(content: string): boolean {
  return RESULT.test(content) || FINGERPRINT.test(content);
}

/** The name under which an input lies in the store: a result under its own, any other file under its fingerprint. */
export function storeName(content: string): string {
  return FINGERPRINT.test(content) ? `file-${content}` : content;
}

/** @throws RangeError when it is no name of a store */
export function holdName(name: string): string {
  if (RESULT.test(name) || STORED.test(name)) return name;
  throw new RangeError(`"${name}" is no name of a store`);
}

/** How long a store that went away is waited for, and how often it is asked, ms. */
const PATIENCE = 30 * 60_000;
const AGAIN = 1000;

/**
 * Asks the store, and asks again while it is away: what took minutes to make is not thrown away for a broken line.
 *
 * @param away told once, when it is found to be away
 * @throws StoreAway when it does not come back
 */
export async function patiently<T>(
  ask: () => Promise<T>,
  signal: AbortSignal,
  away: (failure: StoreAway) => void,
): Promise<T> {
  for (let waited = 0; ; waited += AGAIN)
    try {
      return await ask();
    } catch (error) {
      if (!(error instanceof StoreAway) || waited >= PATIENCE) throw error;
      if (waited === 0) away(error);
      await pause(AGAIN, undefined, { signal });
    }
}

/** The same store, waited for while it is away. */
export function patientStore(store: MediaStore, signal: AbortSignal, say: (text: string) => void): MediaStore {
  const ask = <T>(what: () => Promise<T>) =>
    patiently(what, signal, ({ message }) => say(`note: ${message}; waiting for it`));
  return {
    shown: store.shown,
    has: (name) => ask(() => store.has(name)),
    put: (path, name) => ask(() => store.put(path, name)),
    get: (name, folder) => ask(() => store.get(name, folder)),
    ...(store.remote && {
      async remote(name) {
        const file = await ask(async () => store.remote?.(name));
        return file && { ...file, read: (start, end) => ask(() => file.read(start, end)) };
      },
    }),
  };
}
