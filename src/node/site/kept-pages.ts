import { link, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { fileInside, sumOf } from '../files/index.ts';
import type { PageAt } from './page-maker.ts';
import type { PageSums } from './page-sums.ts';
import { stampOf } from './place-footage.ts';

/** In a built site: from what each of its pages about lessons was made. */
const NOTES = '.liftside-pages.json';

/** Sums of all that went into a page, and of the page itself, and the stamp of its file. */
const note = z.strictObject({ of: z.string(), page: z.string(), stamp: z.string() });
const schema = z.record(z.string(), note);
type Notes = z.infer<typeof schema>;

/**
 * Pages of the last build that this one would make again, letter by letter. They lie in the last site itself, which a
 * build has made and marked: nothing is taken from the content folder, which may be a stranger's.
 */
export class KeptPages {
  readonly #sums: PageSums;
  readonly #last: string | undefined;
  readonly #before: Notes;
  readonly #now: Notes = {};

  private constructor(sums: PageSums, last: string | undefined, before: Notes) {
    this.#sums = sums;
    this.#last = last;
    this.#before = before;
  }

  /** @param last absolute path of the site of the last build */
  static async open(sums: PageSums, last: string | undefined): Promise<KeptPages> {
    const text = last === undefined ? '{}' : await readFile(join(last, NOTES), 'utf8').catch(() => '{}');
    return new KeptPages(sums, last, notesIn(text));
  }

  /**
   * Puts a page of the last site into its place, where it would be made again; linked, for the last site goes when the
   * new one has taken its place.
   *
   * @param to absolute path of its place
   * @returns false where it has to be made
   */
  async takeOver({ path, file }: PageAt, to: string): Promise<boolean> {
    const before = Object.hasOwn(this.#before, path) ? this.#before[path] : undefined;
    if (this.#last === undefined || !before || before.of !== this.#sums.of(path)) return false;
    const from = fileInside(this.#last, file);
    const stamp = await stampOf(from).catch(() => undefined);
    if (stamp === undefined) return false;
    // Somebody may have changed it since, or copied the site as a whole.
    if (stamp !== before.stamp && sumOf(await readFile(from)) !== before.page) return false;
    const linked = await link(from, to).then(
      () => true,
      () => false,
    );
    // Not every disk knows links.
    if (!linked) await writeFile(to, await readFile(from));
    this.#now[path] = { ...before, stamp: linked ? stamp : await stampOf(to) };
    return true;
  }

  /** Notes of a page that was made from what it was made. */
  async note({ path }: PageAt, bytes: string | Uint8Array, at: string): Promise<void> {
    const of = this.#sums.of(path);
    if (of !== undefined) this.#now[path] = { of, page: sumOf(bytes), stamp: await stampOf(at) };
  }

  /** Writes into the site that is made from what its pages were made, for the next build. */
  async write(site: string): Promise<void> {
    const sorted = Object.entries(this.#now).toSorted(([a], [b]) => (a < b ? -1 : 1));
    await writeFile(join(site, NOTES), JSON.stringify(Object.fromEntries(sorted)));
  }
}

function notesIn(text: string): Notes {
  try {
    return schema.parse(JSON.parse(text));
  } catch {
    return {};
  }
}
