import { readFile, stat } from 'node:fs/promises';
import type { Hub } from './hub.ts';

/** ms without a further change after which a file counts as written. */
const QUIET = 60;
/** ms for which an empty file is taken for one that is being written: many programs empty a file before they fill it. */
const EMPTY = 1500;

/**
 * Tells pages of files that changed on disk, once they are whole: a text that another program is still writing would
 * otherwise be taken in as if half of it had been deleted.
 */
export class SettledTexts {
  readonly #hub: Hub;
  readonly #timers = new Map<string, NodeJS.Timeout>();
  readonly #emptySince = new Map<string, number>();

  constructor(hub: Hub) {
    this.#hub = hub;
  }

  /** Something happened to a file: its text is told after a moment of quiet; null when it is gone or cannot be read. */
  note(file: string, path: string): void {
    clearTimeout(this.#timers.get(file));
    this.#timers.set(
      file,
      setTimeout(() => void this.#tell(file, path), QUIET),
    );
  }

  stop(): void {
    for (const timer of this.#timers.values()) clearTimeout(timer);
    this.#timers.clear();
  }

  async #tell(file: string, path: string): Promise<void> {
    const timer = this.#timers.get(file);
    const before = await changeOf(path);
    const text = await readFile(path, 'utf8').catch(() => null);
    // A further event came while it was read: that one's turn comes later.
    if (this.#timers.get(file) !== timer) return;
    if (before !== (await changeOf(path)) || (text === '' && this.#maybeUnfinished(file))) {
      this.note(file, path);
      return;
    }
    this.#timers.delete(file);
    this.#emptySince.delete(file);
    this.#hub.tell({ kind: 'file', file, text });
  }

  #maybeUnfinished(file: string): boolean {
    const since = this.#emptySince.get(file) ?? performance.now();
    this.#emptySince.set(file, since);
    return performance.now() - since < EMPTY;
  }
}

/** Differs whenever a file was written; nothing where there is none. */
async function changeOf(path: string): Promise<string | undefined> {
  const facts = await stat(path, { bigint: true }).catch(() => undefined);
  return facts && `${facts.mtimeNs} ${facts.size} ${facts.ino}`;
}
