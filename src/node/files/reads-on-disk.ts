import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import type { Recording } from '../../core/model/index.ts';
import { CONTENT_FILES, type FileRead, type Questions, type RecordingYaml } from '../../core/read/index.ts';
import { copySum } from './copy-sum.ts';
import { type FileSums, sumOf } from './file-sums.ts';
import { privateFolder } from './private-folder.ts';
import { type ReadKey, ReadKeys } from './read-keys.ts';
import { readSealed, writeSealed } from './sealed.ts';

/** Files that take long to read. */
const LONG: readonly RegExp[] = [
  CONTENT_FILES.lesson,
  CONTENT_FILES.translation,
  CONTENT_FILES.machine,
  CONTENT_FILES.recording,
];

/** What of a recording is as long as the rest is short, and wanted where its lesson is looked at anew. */
const LATER: ReadonlySet<string> = new Set<keyof Recording>(['captions', 'captionsIn']);

interface Kept extends ReadKey {
  readonly file: string;
  /** Sum of its text. */
  readonly text: string;
  readonly read: FileRead<unknown>;
  /** What belongs to the value and is read back when it is asked for. */
  readonly later?: { readonly names: readonly string[]; readonly bytes: Uint8Array };
}

/**
 * What came of reading lessons, recordings and tables, kept in `.liftside/read/`, a file each: a thousand are read back
 * in two seconds, where reading them takes half a minute. Each begins with a seal by the sum of the program: what
 * somebody put into a content folder is not believed. The folder may be lost at any time.
 */
export class ReadsOnDisk {
  readonly #folder: string;
  readonly #onlyRead: boolean;
  readonly #program = copySum();
  #keys: ReadKeys;
  /** Read back for the files that they name, and wanted once more. */
  readonly #recordings = new Map<string, Kept>();

  private constructor(folder: string, keys: ReadKeys, onlyRead: boolean) {
    this.#folder = folder;
    this.#keys = keys;
    this.#onlyRead = onlyRead;
  }

  /**
   * @param content absolute path
   * @param keys of all that is read in the same pass, whoever reads it
   * @param onlyRead nothing is kept, but what is there is read back
   * @returns nothing where nothing can be kept
   */
  static async open(content: string, keys: ReadKeys, onlyRead = false): Promise<ReadsOnDisk | undefined> {
    const folder = await privateFolder(content, 'read').catch(() => undefined);
    return folder === undefined ? undefined : new ReadsOnDisk(folder, keys, onlyRead);
  }

  /** True for files whose reading is kept. */
  static isKept(this: void, file: string): boolean {
    return LONG.some((kind) => kind.test(file));
  }

  /** For reading once more: what has been asked before and was not read again is as it was. */
  again(sums: FileSums): void {
    this.#keys = new ReadKeys(sums, this.#keys.all);
  }

  /**
   * What reading a file comes to: as it was kept, or read now and kept.
   *
   * @param keeps says otherwise than what was said of all
   */
  read<T>(
    file: string,
    questions: Questions,
    read: (questions: Questions) => FileRead<T>,
    keeps = !this.#onlyRead,
  ): FileRead<T> {
    if (!ReadsOnDisk.isKept(file)) return this.#keys.read(file, questions, read).fresh;
    const kept = this.#recordings.get(file) ?? this.#load(file);
    this.#recordings.delete(file);
    // A path is read by one reader: it says what kind of file it is.
    if (kept && this.#keys.holds(file, kept, questions)) return kept.read as FileRead<T>;
    const { fresh, key } = this.#keys.read(file, questions, read);
    if (keeps) this.#save({ ...key, file, text: this.#keys.sum(file), read: fresh });
    return fresh;
  }

  /**
   * The YAML of a recording, which is wanted before what it names has been looked at: as it was kept, where its text
   * is the same and nothing was wrong in it.
   */
  yaml(file: string): FileRead<RecordingYaml> | undefined {
    const kept = this.#load(file);
    const sum = this.#keys.sum(file);
    if (!kept || sum === '' || kept.text !== sum) return undefined;
    const { value, diagnostics, broken } = kept.read as FileRead<Recording>;
    if (!value || diagnostics.length + broken.length > 0) return undefined;
    this.#recordings.set(file, kept);
    const { written, origin } = value;
    return { value: { value: written, origin, diagnostics, broken }, diagnostics, broken };
  }

  /** Takes away what is kept of files that are no longer there. @param texts those that are */
  async close(texts: ReadonlyMap<string, string>): Promise<void> {
    const there = new Set([...texts.keys()].map((file) => sumOf(file)));
    const all = await readdir(this.#folder).catch(() => []);
    const old = all.filter((name) => !there.has(name));
    await Promise.all(old.map((name) => rm(join(this.#folder, name), { force: true }).catch(() => undefined)));
  }

  #load(file: string): Kept | undefined {
    const bytes = readSealed(join(this.#folder, sumOf(file)), this.#program);
    if (!bytes) return undefined;
    const kept: Kept = deserialize(bytes);
    if (kept.file !== file) return undefined;
    if (kept.later && isObject(kept.read.value)) addLater(kept.read.value, kept.later);
    return kept;
  }

  #save(kept: Kept): void {
    const bytes = serialize(CONTENT_FILES.recording.test(kept.file) ? withLater(kept) : kept);
    try {
      writeSealed(join(this.#folder, sumOf(kept.file)), bytes, this.#program);
    } catch {
      // A full disk, or a link: it is read once more next time.
    }
  }
}

/** The same with what is long put aside. */
function withLater(kept: Kept): Kept {
  const { value } = kept.read;
  if (!isObject(value)) return kept;
  const entries = Object.entries(value);
  const long = Object.fromEntries(entries.filter(([name]) => LATER.has(name)));
  const short = Object.fromEntries(entries.filter(([name]) => !LATER.has(name)));
  return {
    ...kept,
    read: { ...kept.read, value: short },
    later: { names: Object.keys(long), bytes: serialize(long) },
  };
}

/** Gives a value what was put aside of it, read back when the first of it is asked for. */
function addLater(value: object, { names, bytes }: NonNullable<Kept['later']>): void {
  let all: Readonly<Record<string, unknown>> | undefined;
  for (const name of names)
    Object.defineProperty(value, name, {
      enumerable: true,
      configurable: true,
      get: (): unknown => {
        all ??= deserialize(bytes) as Readonly<Record<string, unknown>>;
        return all[name];
      },
    });
}

function isObject(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}
