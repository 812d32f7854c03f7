import type { DayEvent } from '../../core/day/index.ts';

const STORE = 'unsent';

/**
 * Events that the server has not written down yet, in the browser's own database: they outlive the page, the browser
 * and the machine, and are sent when the server is there again.
 */
export class DayMemory {
  readonly #database: IDBDatabase | undefined;
  readonly #class: string;

  private constructor(database: IDBDatabase | undefined, of: string) {
    this.#database = database;
    this.#class = of;
  }

  /** Where the browser has no room for it or forbids it, the server's disk is the only memory. */
  static async open(of: string): Promise<DayMemory> {
    const request = indexedDB.open('liftside-class-day', 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: ['class', 'event.id'] });
    const database = await result(request).catch(() => undefined);
    return new DayMemory(database, of);
  }

  keep(event: DayEvent): void {
    this.#write()?.put({ class: this.#class, event });
  }

  forget(events: readonly DayEvent[]): void {
    const store = this.#write();
    for (const { id } of events) store?.delete([this.#class, id]);
  }

  /** In the order in which they happened. */
  async unsent(): Promise<DayEvent[]> {
    if (!this.#database) return [];
    const rows = await result(this.#database.transaction(STORE).objectStore(STORE).getAll());
    return (rows as { class: string; event: DayEvent }[])
      .filter((row) => row.class === this.#class)
      .map(({ event }) => event)
      .toSorted((a, b) => a.at - b.at);
  }

  #write(): IDBObjectStore | undefined {
    return this.#database?.transaction(STORE, 'readwrite', { durability: 'strict' }).objectStore(STORE);
  }
}

function result<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error('the browser’s own database cannot be opened'));
  });
}
