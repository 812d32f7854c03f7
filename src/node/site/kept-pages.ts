import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { filesBelow, sumOf } from '../files/index.ts';
import type { PageKeeper } from './open-site.ts';
import type { PageSums } from './page-sums.ts';

/** In a built site: from what each of its pages about lessons was made. */
const NOTES = '.liftside-pages.json';

/** Sums of all that went into a page, and of the page itself. */
const note = z.strictObject({ of: z.string(), page: z.string() });
const schema = z.record(z.string(), note);
type Notes = z.infer<typeof schema>;

/**
 * Pages of the last build that this one would make again, letter by letter. They lie in the last site itself, which a
 * build has made and marked: nothing is taken from the content folder, which may be a stranger's.
 */
export class KeptPages implements PageKeeper {
  readonly #sums: PageSums;
  readonly #last: string | undefined;
  readonly #before: Notes;
  readonly #now: Notes = {};
  /** Files of the site that pages taken over name. */
  readonly #named = new Set<string>();

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
   * The page at a path, as it was or as it is made now.
   *
   * @param path below the base
   */
  async page(path: string, make: () => Promise<string | undefined>): Promise<string | undefined> {
    const of = this.#sums.of(path);
    if (of === undefined) return make();
    const text = (await this.#asBefore(path, of)) ?? (await make());
    if (text !== undefined) this.#now[path] = { of, page: sumOf(text) };
    return text;
  }

  async #asBefore(path: string, of: string): Promise<string | undefined> {
    const before = Object.hasOwn(this.#before, path) ? this.#before[path] : undefined;
    if (this.#last === undefined || before?.of !== of) return undefined;
    const text = await readFile(join(this.#last, path, 'index.html'), 'utf8').catch(() => undefined);
    // Somebody may have changed it since.
    if (text === undefined || sumOf(text) !== before.page) return undefined;
    for (const [name] of text.matchAll(/_astro\/[^"')\s]+/g)) this.#named.add(name);
    return text;
  }

  /** True where a site has every script and sheet that the pages taken over name. */
  async isWhole(site: string): Promise<boolean> {
    const there = new Set(await filesBelow(site));
    return [...this.#named].every((name) => there.has(decodeURI(name)));
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
