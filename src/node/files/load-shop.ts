import { statSync } from 'node:fs';
import type { Diagnostic, FileFacts, MediaFacts, Shop } from '../../core/model/index.ts';
import {
  type FileRead,
  filesNamed,
  KeptReads,
  MOST_CAPTION_TEXT,
  type Recalls,
  readShop,
} from '../../core/read/index.ts';
import { must } from '../../core/time/index.ts';
import { withContentLock } from './content-lock.ts';
import { readContentTexts } from './content-texts.ts';
import { decodeText } from './decode.ts';
import { diskReason, readReason } from './disk-reason.ts';
import { errorCode } from './error-code.ts';
import { type FileSum, FileSums } from './file-sums.ts';
import { besideEachOther, insideFolder } from './inside.ts';
import { hasJournal, recover } from './journal.ts';
import { privateFolder } from './private-folder.ts';
import { ProbeCache } from './probe-cache.ts';
import { ReadKeys } from './read-keys.ts';
import { readPlain } from './read-plain.ts';
import { ReadsOnDisk } from './reads-on-disk.ts';
import { bytesAsTheyWere } from './texts-as-they-were.ts';

/** A content folder as read: the model and what was found wrong while reading. */
export interface LoadedShop {
  /** Absolute path of the content folder. */
  readonly content: string;
  readonly shop: Shop;
  readonly diagnostics: readonly Diagnostic[];
  /** Every content text that was read, by path relative to the content folder. */
  readonly texts: ReadonlyMap<string, string>;
  /** What was put in order before reading, in words. */
  readonly notes: readonly string[];
  /** The sum of each text and caption file that was looked at. */
  readonly sums: ReadonlyMap<string, FileSum>;
}

/** Longest caption file that is read, bytes: as much as core reads, in the widest encoding. */
const MOST_BYTES = 2 * MOST_CAPTION_TEXT;

/**
 * Reads a content folder: its texts, and what a probe says of the media it names.
 *
 * @param content absolute path
 * @param kept what was read of it before; what is still so is not read anew
 * @throws when the folder itself cannot be read
 */
export async function loadShop(content: string, kept = new KeptFolder()): Promise<LoadedShop> {
  const notes = await endBrokenSave(content);
  const own = kept.holds ? await privateFolder(content).catch(() => undefined) : undefined;
  const sums = own === undefined ? FileSums.uncertain() : await FileSums.open(own, kept.sums);
  const { texts, unreadable, unchanged } = await readContentTexts(content, sums);
  for (const file of unchanged) texts.set(file, must(kept.texts.get(file), 'a text that has not changed'));
  const held = kept.reads.again();
  const disk = await kept.disk(content, sums, texts);
  const recalls: Recalls = {
    ...held,
    ...(disk && {
      recordings: <T>(...[file, texts, questions, read]: Parameters<typeof held.recordings<T>>) =>
        held.recordings(
          file,
          texts,
          questions,
          (asking) => (disk.yaml(file) as FileRead<T> | undefined) ?? read(asking),
        ),
      files: (file, texts, questions, read) =>
        held.files(file, texts, questions, (asking) => disk.read(file, asking, read)),
    }),
  };
  const { facts, captions, away } = await factsOnDisk(content, filesNamed(texts, recalls), sums, kept.captions);
  const read = readShop(texts, facts, unreadable, recalls);
  kept.hold(texts, captions, sums.found);
  await disk?.close(texts);
  return { content, texts, notes: [...notes, ...away], sums: new Map(sums.found), ...read };
}

/** A content folder as it was read last, so that reading it again reads what has changed since. */
class KeptFolder {
  readonly reads = new KeptReads();
  sums: ReadonlyMap<string, FileSum> = new Map();
  texts: ReadonlyMap<string, string> = new Map();
  captions: ReadonlyMap<string, FileFacts> = new Map();
  /** Something is held. */
  holds = false;
  /** What is read is kept beside the content as well. */
  readonly #onDisk: boolean;
  #disk: ReadsOnDisk | undefined;

  constructor(onDisk = false) {
    this.#onDisk = onDisk;
  }

  async disk(content: string, sums: FileSums, texts: ReadonlyMap<string, string>): Promise<ReadsOnDisk | undefined> {
    if (!this.#onDisk || ![...texts.keys()].some(ReadsOnDisk.isKept)) return undefined;
    this.#disk?.again(sums);
    this.#disk ??= await ReadsOnDisk.open(content, new ReadKeys(sums));
    return this.#disk;
  }

  hold(texts: KeptFolder['texts'], captions: KeptFolder['captions'], sums: KeptFolder['sums']): void {
    // A text may be put in place of another by whoever was given the texts.
    Object.assign(this, { texts: new Map(texts), captions, sums: new Map(sums), holds: true });
  }
}

/**
 * Loads a content folder again and again: each time only what has changed since the last time is read. One at a time, as
 * the second finds what the first has read; and the first what an earlier run of the program has left in `.liftside`.
 */
export function shopLoader(content: string): () => Promise<LoadedShop> {
  const kept = new KeptFolder(true);
  let last: Promise<unknown> = Promise.resolve();
  return () => {
    const next = last.then(() => loadShop(content, kept));
    last = next.catch(() => undefined);
    return next;
  };
}

/** What is known of the files that content names, and which of them stayed elsewhere, in words. */
interface FactsOnDisk {
  readonly facts: (file: string) => FileFacts;
  /** The texts among them. */
  readonly captions: ReadonlyMap<string, FileFacts>;
  readonly away: readonly string[];
}

/**
 * Looks at the files that content names.
 *
 * @param content absolute path
 * @param sums told the sums of captions, and asked which need not be read
 * @param before captions as they were when those sums were found; left out, they are read when they are asked for
 */
export async function factsOnDisk(
  content: string,
  named: { readonly media: readonly string[]; readonly texts: readonly string[] },
  sums: FileSums,
  before: ReadonlyMap<string, FileFacts> = new Map(),
): Promise<FactsOnDisk> {
  const cache = await ProbeCache.open(content);
  const facts = new Map<string, FileFacts>();
  const captions = new Map<string, FileFacts>();
  const placeOf = besideEachOther(content);
  const changed = named.texts.filter((file) => {
    const path = placeOf(file);
    const sum = path === undefined ? undefined : sums.known(file, path);
    if (sum !== undefined) captions.set(file, before.get(file) ?? captionsAsTheyWere(content, file, sum));
    return sum === undefined;
  });
  await Promise.all([
    ...named.media.map(async (file) => facts.set(file, await cache.facts(file))),
    ...changed.map(async (file) => captions.set(file, await captionFacts(content, file, sums, before.get(file)))),
  ]);
  await cache.close();
  const away: string[] = [];
  const missing = named.media.filter((file) => facts.get(file)?.state === 'missing');
  for (const [file, media] of missing.length > 0 ? await awayFacts(content) : [])
    if (missing.includes(file)) {
      facts.set(file, { state: 'media', media });
      away.push(`${file} stayed in the shop it was taken in; the finished programme that came in a package plays`);
    }
  return { away, captions, facts: (file) => facts.get(file) ?? captions.get(file) ?? pictureFacts(content, file) };
}

/** A save of several files that was killed is ended first, so that what is read is all of it or none. */
export async function endBrokenSave(content: string): Promise<string[]> {
  if (!(await hasJournal(content))) return [];
  try {
    // Whoever is saving right now is waited for.
    const { finished, aside } = await withContentLock(content, 'ending a save', () => recover(content));
    const told = finished.length > 0 ? [`a save that was broken off has been ended: ${finished.join(', ')}`] : [];
    return [
      ...told,
      ...aside.map(
        ({ file, kept }) =>
          `${file} has been changed since a save of it was broken off, and stays as it is; the text of the save is in ${kept}`,
      ),
    ];
  } catch (error) {
    return [`a save that was broken off cannot be ended: ${diskReason(error)}; some of its files may be the old ones`];
  }
}

/** Only where a camera file is missing it is asked whether it stayed elsewhere, and its programme came in a package. */
async function awayFacts(content: string): Promise<ReadonlyMap<string, MediaFacts>> {
  const { findAway } = await import('../media/away.ts');
  return findAway(content);
}

async function captionFacts(
  content: string,
  file: string,
  sums: FileSums,
  before: FileFacts | undefined,
): Promise<FileFacts> {
  const inside = insideFolder(content, file);
  if (!inside.ok) return { state: 'unreadable', reason: inside.problem };
  const sum = sums.known(file, inside.path);
  if (sum !== undefined) return before ?? captionsAsTheyWere(content, file, sum);
  try {
    const read = () => readPlain(inside.path, MOST_BYTES);
    return { state: 'text', text: decodeText(await sums.read(file, inside.path, read)).text };
  } catch (error) {
    return errorCode(error) === 'ENOENT' ? { state: 'missing' } : { state: 'unreadable', reason: readReason(error) };
  }
}

/** Captions that have not changed, read when they are asked for. */
function captionsAsTheyWere(content: string, file: string, sum: string): FileFacts {
  let text: string | undefined;
  return {
    state: 'text',
    get text() {
      text ??= decodeText(bytesAsTheyWere(content, file, sum)).text;
      return text;
    },
  };
}

/** Whether a picture that a lesson names is there. Lessons name few, so each is looked at when it is asked for. */
function pictureFacts(content: string, file: string): FileFacts {
  const inside = insideFolder(content, file);
  if (!inside.ok) return { state: 'unreadable', reason: inside.problem };
  try {
    return statSync(inside.path).isFile() ? { state: 'picture' } : { state: 'unreadable', reason: 'it is no file' };
  } catch {
    return { state: 'missing' };
  }
}
