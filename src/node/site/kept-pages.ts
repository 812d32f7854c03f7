import { hash } from 'node:crypto';
import { linkSync, lstatSync, readFileSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { PIECE_BYTES, type Piece } from '../../core/keep/index.ts';
import type { PageAt } from './page-maker.ts';
import type { PageSums } from './page-sums.ts';
import { stampIn } from './place-footage.ts';

/** In a built site: from what each of its pages about lessons was made. */
const NOTES = '.liftside-pages.json';

/** Sums of all that went into a page, and of the page itself, and the stamp of its file. */
const note = z.strictObject({
  of: z.string(),
  /** SHA-256, hexadecimal. */
  page: z.string(),
  stamp: z.string(),
  /** The paths it names, where that was asked: places in the list of all. */
  names: z.array(z.int()).optional(),
});
const schema = z.strictObject({ named: z.array(z.string()), pages: z.record(z.string(), note) });
type Notes = z.infer<typeof schema>;

/**
 * Pages of the last build that this one would make again, letter by letter. They lie in the last site itself, which a
 * build has made and marked: nothing is taken from the content folder, which may be a stranger's.
 *
 * All is asked of the disk at once: of thousands of small files most of the time would go into waiting in turn.
 */
export class KeptPages {
  readonly #sums: PageSums;
  readonly #last: string | undefined;
  readonly #before: Notes;
  readonly #now: Notes['pages'] = {};
  readonly #names = new Map<string, ReadonlySet<string>>();

  private constructor(sums: PageSums, last: string | undefined, before: Notes) {
    this.#sums = sums;
    this.#last = last;
    this.#before = before;
  }

  /** @param last absolute path of the site of the last build */
  static async open(sums: PageSums, last: string | undefined): Promise<KeptPages> {
    const text = last === undefined ? '' : await readFile(join(last, NOTES), 'utf8').catch(() => '');
    return new KeptPages(sums, last, notesIn(text));
  }

  /**
   * Puts a page of the last site into its place, where it would be made again; linked, for the last site goes when the
   * new one has taken its place.
   *
   * @param to absolute path of its place
   * @returns false where it has to be made
   */
  takeOver({ path, file }: PageAt, to: string): boolean {
    const before = Object.hasOwn(this.#before.pages, file) ? this.#before.pages[file] : undefined;
    if (this.#last === undefined || !before || before.of !== this.#sums.of(path)) return false;
    const from = join(this.#last, file);
    const stamp = stampOf(from);
    if (stamp === undefined) return false;
    // Somebody may have changed it since, or copied the site as a whole.
    if (stamp !== before.stamp && sumOf(readFileSync(from)) !== before.page) return false;
    putThere(from, to);
    const { of, page, names } = before;
    this.#now[file] = { of, page, stamp: stampOf(to) ?? '' };
    if (names) this.#names.set(file, new Set(names.flatMap((at) => this.#before.named[at] ?? [])));
    return true;
  }

  /** Notes of a page that was made from what it was made. */
  note({ path, file }: PageAt, bytes: string | Uint8Array, at: string): void {
    const of = this.#sums.of(path);
    if (of !== undefined) this.#now[file] = { of, page: sumOf(bytes), stamp: stampOf(at) ?? '' };
  }

  /** The paths that a page names, where they were noted of it as it is. */
  namedBy(file: string): ReadonlySet<string> | undefined {
    return this.#names.get(file);
  }

  /** Notes which paths a page names. */
  noteNamed(file: string, paths: ReadonlySet<string>): void {
    if (Object.hasOwn(this.#now, file)) this.#names.set(file, paths);
  }

  /** What a small file consists of that was made or taken over here; nothing of others. */
  pieces(file: string): readonly Piece[] | undefined {
    const own = Object.hasOwn(this.#now, file) ? this.#now[file] : undefined;
    const bytes = Number(own?.stamp.split(' ', 1)[0]);
    return own && bytes > 0 && bytes < PIECE_BYTES ? [{ bytes, sha256: own.page }] : undefined;
  }

  /** Puts a text into its place: the file of the last site, where it says the same. */
  place(file: string, text: string, to: string): void {
    const from = this.#last === undefined ? undefined : join(this.#last, file);
    if (from !== undefined && stampOf(from) !== undefined && readFileSync(from, 'utf8') === text) putThere(from, to);
    else writeFileSync(to, text);
  }

  /** Writes into the site that is made from what its pages were made, for the next build. */
  write(site: string): void {
    const at = new Map<string, number>();
    const place = (path: string) => {
      const own = at.get(path) ?? at.size;
      at.set(path, own);
      return own;
    };
    const sorted = Object.entries(this.#now).toSorted(([a], [b]) => (a < b ? -1 : 1));
    const pages = sorted.map(([file, own]) => {
      const names = this.#names.get(file);
      return [file, names ? { ...own, names: [...names].map(place) } : own] as const;
    });
    const notes: Notes = { pages: Object.fromEntries(pages), named: [...at.keys()] };
    writeFileSync(join(site, NOTES), JSON.stringify(notes));
  }
}

/** A file of the last site, as a link or, where the disk knows none, as a copy. */
function putThere(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    writeFileSync(to, readFileSync(from));
  }
}

/** Nothing where there is no such file, or a link. */
function stampOf(path: string): string | undefined {
  const is = lstatSync(path, { bigint: true, throwIfNoEntry: false });
  return is?.isFile() ? stampIn(is) : undefined;
}

function sumOf(bytes: string | Uint8Array): string {
  return hash('sha256', bytes);
}

function notesIn(text: string): Notes {
  try {
    return schema.parse(JSON.parse(text));
  } catch {
    return { pages: {}, named: [] };
  }
}
