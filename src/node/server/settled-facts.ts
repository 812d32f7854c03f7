import type { FileFacts } from '../../core/model/index.ts';
import type { Hub } from './hub.ts';

/** ms without a further change after which films, sounds and captions are looked at: copying one takes a while. */
const QUIET = 800;

/**
 * Tells pages what became known of the files that recordings name, when one of them appears, changes or goes, or when
 * a recording names another.
 */
export class SettledFacts {
  readonly #hub: Hub;
  readonly #read: () => Promise<ReadonlyMap<string, FileFacts>>;
  #timer: NodeJS.Timeout | undefined;
  #told = '';

  /** @param read what is known of every file that a recording names */
  constructor(hub: Hub, read: () => Promise<ReadonlyMap<string, FileFacts>>) {
    this.#hub = hub;
    this.#read = read;
  }

  /** Something happened to a file that may be one of them, or to a recording. */
  note(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#tell(), QUIET);
  }

  stop(): void {
    clearTimeout(this.#timer);
  }

  async #tell(): Promise<void> {
    const timer = this.#timer;
    const facts = await this.#read().catch(() => undefined);
    // A further event came meanwhile: that one's turn comes later.
    if (!facts || this.#timer !== timer) return;
    const text = JSON.stringify([...facts]);
    if (text === this.#told) return;
    this.#told = text;
    this.#hub.tell({ kind: 'facts', facts: Object.fromEntries(facts) });
  }
}
