import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { Counted } from '../../core/search/index.ts';
import { copySum, privateFolder, readSealed, writeSealed } from '../files/index.ts';
import type { CountsKept } from './open-site.ts';
import type { PageSums } from './page-sums.ts';

interface Entry {
  readonly key: string;
  readonly counted: Counted;
}
type Entries = ReadonlyMap<string, Entry>;

/** In `.liftside/`, sealed: what somebody put into a content folder is not believed. It may be lost at any time. */
const FILE = 'search.kept';

/**
 * What the steps of lessons add to the search, as the last build has counted it: a build after an edit counts the
 * words of one lesson. Each has the sum of all that its words come from as its key.
 */
export class KeptCounts implements CountsKept {
  readonly #sums: PageSums;
  readonly #path: string | undefined;
  readonly #program = copySum();
  readonly #before: Entries;
  readonly #now = new Map<string, Entry>();

  private constructor(sums: PageSums, path: string | undefined) {
    this.#sums = sums;
    this.#path = path;
    const bytes = path === undefined ? undefined : readSealed(path, this.#program);
    this.#before = bytes ? (deserialize(bytes) as Entries) : new Map();
  }

  /** @param content absolute path; where nothing can be kept in it, all is counted anew each time */
  static async open(content: string, sums: PageSums): Promise<KeptCounts> {
    const folder = await privateFolder(content).catch(() => undefined);
    return new KeptCounts(sums, folder === undefined ? undefined : join(folder, FILE));
  }

  of(language: string, lesson: string, count: () => Counted): Counted {
    const name = `${language} ${lesson}`;
    const key = this.#sums.ofLesson(lesson);
    const before = this.#before.get(name);
    const counted = before && before.key === key ? before.counted : count();
    if (key !== undefined) this.#now.set(name, { key, counted });
    return counted;
  }

  /** Keeps what this build has counted, and no more; a folder that cannot be written to only costs time. */
  close(): void {
    const same =
      this.#now.size === this.#before.size &&
      [...this.#now].every(([name, { key }]) => this.#before.get(name)?.key === key);
    if (this.#path === undefined || same) return;
    try {
      writeSealed(this.#path, serialize(this.#now), this.#program);
    } catch {
      // Counted once more next time.
    }
  }
}
