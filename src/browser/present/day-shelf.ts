import { z } from 'zod';
import { anchorSchema, type DayEvent, type DayLog, dayEventSchema } from '../../core/day/index.ts';
import type { Memory } from './day-memory.ts';

const STORE = 'logs';
const logSchema = z.strictObject({ events: z.array(dayEventSchema), anchor: anchorSchema.optional() });

/** Where a page without a server keeps what happens in classes: each log under a name. */
export interface DayShelf {
  /** False where the browser keeps nothing, so that all is gone with the page. */
  readonly lasting: boolean;
  names(): Promise<readonly string[]>;
  read(name: string): Promise<DayLog>;
  /**
   * Changes a log in one go, so that two windows never lose each other's events.
   *
   * @throws when it cannot be written down
   */
  change(name: string, next: (was: DayLog) => DayLog): Promise<DayLog>;
}

/** The browser's own database; its small store where a browser has no database for folders; else the page alone. */
export async function openShelf(): Promise<DayShelf> {
  return (await databaseShelf().catch(() => undefined)) ?? storeShelf(localStorageThatWorks());
}

async function databaseShelf(): Promise<DayShelf> {
  const opening = indexedDB.open('liftside-packed-days', 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore(STORE);
  const database = await answerOf(opening);
  const logs = (mode: IDBTransactionMode) =>
    database.transaction(STORE, mode, { durability: 'strict' }).objectStore(STORE);
  return {
    lasting: true,
    names: async () => (await answerOf(logs('readonly').getAllKeys())).map(String),
    read: async (name) => logOf(await answerOf(logs('readonly').get(name))),
    change: (name, next) =>
      new Promise((done, failed) => {
        const store = logs('readwrite');
        const asked = store.get(name);
        let log: DayLog = { events: [] };
        asked.onsuccess = () => {
          log = next(logOf(asked.result));
          store.put(log, name);
        };
        // Only a transaction that is complete is on the disk.
        store.transaction.oncomplete = () => done(log);
        store.transaction.onabort = () => failed(store.transaction.error ?? new Error('the browser did not keep it'));
      }),
  };
}

function answerOf<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((done, failed) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error ?? new Error('the browser’s own database cannot be opened'));
  });
}

type SmallStore = Pick<Storage, 'getItem' | 'setItem'>;
/** All logs of all classes stand in one text. */
const ITEM = 'packed-days';

/** @param store of texts; nothing where the browser has none */
export function storeShelf(store: SmallStore | undefined): DayShelf {
  const alone = new Map<string, string>();
  const { getItem, setItem } = store ?? {
    getItem: (key: string) => alone.get(key) ?? null,
    setItem: (key: string, value: string) => void alone.set(key, value),
  };
  const all = (): Record<string, unknown> => {
    try {
      return z.record(z.string(), z.unknown()).parse(JSON.parse(getItem(ITEM) ?? '{}'));
    } catch {
      return {};
    }
  };
  return {
    lasting: store !== undefined,
    names: async () => Object.keys(all()),
    read: async (name) => logOf(all()[name]),
    async change(name, next) {
      const logs = all();
      const log = next(logOf(logs[name]));
      setItem(ITEM, JSON.stringify({ ...logs, [name]: log }));
      return log;
    },
  };
}

/** The small store of this browser; nothing where it has none for folders. */
export function localStorageThatWorks(): SmallStore | undefined {
  try {
    localStorage.setItem(`${ITEM} trial`, '');
    localStorage.removeItem(`${ITEM} trial`);
    return {
      getItem: (key) => localStorage.getItem(key),
      setItem: (key, value) => localStorage.setItem(key, value),
    };
  } catch {
    return undefined;
  }
}

/**
 * Events that are not on the shelf yet, so that a page that goes in the same moment loses none: the small store of a
 * browser is written before the next line runs, which its database is not.
 *
 * @param name of the package
 */
export function memoryBeside(name: string, store: SmallStore | undefined): Memory {
  const item = `packed-day-unsent ${name}`;
  const known = (): readonly DayEvent[] => {
    try {
      return z.array(dayEventSchema).parse(JSON.parse(store?.getItem(item) ?? '[]'));
    } catch {
      return [];
    }
  };
  const write = (events: readonly DayEvent[]) => {
    try {
      store?.setItem(item, JSON.stringify(events));
    } catch {
      // Full: the shelf has them in a moment.
    }
  };
  return {
    unsent: async () => [...known()],
    keep: (event) => write([...known(), event]),
    forget: (events) => write(known().filter(({ id }) => !events.some((gone) => gone.id === id))),
  };
}

/** What was kept, as far as it is a log; something else that stands under its name counts as nothing. */
function logOf(kept: unknown): DayLog {
  const { data } = logSchema.safeParse(kept);
  return { events: data?.events ?? [], ...(data?.anchor && { anchor: data.anchor }) };
}
