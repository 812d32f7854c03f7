import type { Change } from './api.ts';

const STORE = 'unsaved';

/**
 * Work that is not on disk yet, kept in the browser's own database. Not in its local storage, which browsers write out
 * only every few seconds: one that is killed takes the last of it along.
 */
export class Journal {
  readonly #database: IDBDatabase;
  readonly #recording: string;
  #empty = false;

  private constructor(database: IDBDatabase, recording: string) {
    this.#database = database;
    this.#recording = recording;
  }

  /** @throws DOMException where the browser has no room for it or forbids it */
  static async open(recording: string): Promise<Journal> {
    const request = indexedDB.open('liftside-cutting-room', 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE);
    return new Journal(await result(request), recording);
  }

  /** Writes go to disk in the order in which they were asked for. */
  write(changes: readonly Change[]): void {
    if (changes.length === 0 && this.#empty) return;
    this.#empty = changes.length === 0;
    const work = this.#database.transaction(STORE, 'readwrite', { durability: 'strict' });
    if (changes.length === 0) work.objectStore(STORE).delete(this.#recording);
    else work.objectStore(STORE).put(changes, this.#recording);
  }

  async read(): Promise<Change[]> {
    const kept: unknown = await result(
      this.#database.transaction(STORE).objectStore(STORE).get(this.#recording) as IDBRequest<unknown>,
    );
    return Array.isArray(kept) ? (kept as Change[]) : [];
  }
}

function result<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error('the browser’s own database cannot be opened'));
  });
}
