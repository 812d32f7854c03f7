import { EMPTY_RECORD, recordSchema, type ServiceRecord } from './schema.ts';

/** Where a record is kept in this browser. */
export const RECORD_KEY = 'liftside.service-record';
/** What cannot be read is put aside here, never thrown away. */
const ASIDE_KEY = `${RECORD_KEY}.unreadable`;

type Storage = Pick<globalThis.Storage, 'getItem' | 'setItem'>;

/**
 * The service record of this browser. Each change reads what is kept, changes it and keeps it again, so that two open
 * pages do not undo each other. Where nothing can be kept, it holds for this page.
 */
export class RecordStore {
  readonly #storage: () => Storage;
  /** What this page knows where storage is closed off. */
  #here: ServiceRecord | undefined;

  /** @param storage asked each time, since a browser may refuse it by throwing */
  constructor(storage: () => Storage = () => localStorage) {
    this.#storage = storage;
  }

  read(): ServiceRecord {
    if (this.#here) return this.#here;
    let text: string | null;
    try {
      text = this.#storage().getItem(RECORD_KEY);
    } catch {
      return EMPTY_RECORD;
    }
    if (text === null) return EMPTY_RECORD;
    const read = recordSchema.safeParse(parsed(text));
    if (read.success) return read.data;
    try {
      this.#storage().setItem(ASIDE_KEY, text);
    } catch {
      // Full: it stays where it is until something is written down.
    }
    return EMPTY_RECORD;
  }

  /** @returns false when this browser keeps nothing, so that the change is lost with the page */
  change(work: (record: ServiceRecord) => ServiceRecord): boolean {
    const next = work(this.read());
    try {
      this.#storage().setItem(RECORD_KEY, JSON.stringify(next));
      this.#here = undefined;
      return true;
    } catch {
      this.#here = next;
      return false;
    }
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
