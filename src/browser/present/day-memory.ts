import type { DayEvent } from '../../core/day/index.ts';

const STORE = 'unsent';

/** Remembers what the keeper of a class has not written down yet. */
export type Memory = Pick<DayMemory, 'unsent' | 'keep' | 'forget'>;

/**
 * One memory of two: the small store of a browser has an event before the next line runs, but puts it on the disk when
 * it likes; its database has it on the disk soon, but is written when the page is gone already.
 */
export function bothMemories(one: Memory, other: Memory): Memory {
  return {
    async unsent() {
      const all = [...(await one.unsent()), ...(await other.unsent())];
      return [...new Map(all.map((event) => [event.id, event])).values()].toSorted((a, b) => a.at - b.at);
    },
    keep(event) {
      one.keep(event);
      other.keep(event);
    },
    forget(events) {
      one.forget(events);
      other.forget(events);
    },
  };
}

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
    return new DayMemory(await openDatabase().catch(() => undefined), of);
  }

  keep(event: DayEvent): void {
    const store = this.#write();
    store?.put({ class: this.#class, event });
    // Nothing follows: without this it would wait for the page to hear that the event was put.
    store?.transaction.commit();
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

async function openDatabase(): Promise<IDBDatabase> {
  const request = indexedDB.open('liftside-class-day', 1);
  request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: ['class', 'event.id'] });
  return result(request);
}

function result<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error('the browser’s own database cannot be opened'));
  });
}
