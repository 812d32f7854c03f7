import { type Dirent, existsSync } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Unreadable } from '../../core/read/index.ts';
import { TEXT_FOLDERS } from './content-folders.ts';
import { readReason } from './disk-reason.ts';
import { errorCode } from './error-code.ts';
import type { FileSums } from './file-sums.ts';
import { insideFolder } from './inside.ts';
import { MARKER } from './made-folder.ts';
import { NoFile, readPlain, TooLong } from './read-plain.ts';

/** What a content folder says. */
export interface ContentTexts {
  /** By path relative to the folder, with `/`. */
  readonly texts: Map<string, string>;
  /** What is there and could not be read, by path. */
  readonly unreadable: Map<string, Unreadable>;
  /** Texts that need not be read: they are as they were. Each is also in `texts`, empty. */
  readonly unchanged: Set<string>;
}

interface Reading extends ContentTexts {
  readonly content: string;
  readonly sums: FileSums;
}

/** Folders that hold no content text, however deep. */
const SKIPPED = new Set(['media', 'node_modules']);
const TEXT = /\.(ya?ml|mdx?|json)$/i;

/** Longest text that is read, bytes: many times what anybody writes. */
const MOST_BYTES = 16_000_000;

/** An editor that saves by rename takes the old file away first: so often, and so long apart, ms, it is looked for again. */
const AGAIN = 4;
const APART = 40;

/**
 * Reads every text of a content folder. What cannot be read (no right to, a pipe, a link to nowhere or out of the
 * folder, gone meanwhile) is told with its reason, and the rest is read all the same.
 *
 * @param content absolute path
 * @param sums told the sum of what is read, and asked which need not be
 * @throws when the folder itself cannot be read
 */
export async function readContentTexts(content: string, sums: FileSums): Promise<ContentTexts> {
  const found: Reading = { content, sums, texts: new Map(), unreadable: new Map(), unchanged: new Set() };
  await readEntries('', await readdir(content, { withFileTypes: true }), found);
  return found;
}

async function readEntries(folder: string, entries: readonly Dirent[], found: Reading) {
  const changed = entries
    .filter(({ name }) => !name.startsWith('.'))
    .flatMap((entry) => {
      const file = folder === '' ? entry.name : `${folder}/${entry.name}`;
      if (!entry.isFile() || !TEXT.test(entry.name) || found.sums.known(file, `${found.content}/${file}`) === undefined)
        return [{ file, entry }];
      found.texts.set(file, '');
      found.unchanged.add(file);
      return [];
    });
  await Promise.all(changed.map(({ file, entry }) => readEntry(file, entry, found)));
}

async function readEntry(file: string, entry: Dirent, found: Reading): Promise<void> {
  const isText = TEXT.test(entry.name);
  if (entry.isSymbolicLink()) {
    const kind = await linkKind(found.content, file);
    if (kind === 'folder') return readFolder(file, found);
    // A link in the place of one of the folders that leads nowhere is told too.
    if (isText || (kind !== 'file' && TEXT_FOLDERS.includes(file))) return readText(file, found);
    return;
  }
  if (entry.isDirectory()) return readFolder(file, found);
  if (isText) return readText(file, found);
}

async function linkKind(content: string, file: string): Promise<'file' | 'folder' | undefined> {
  const inside = insideFolder(content, file);
  const known = inside.ok ? await stat(inside.path).catch(() => undefined) : undefined;
  if (!known) return undefined;
  // A folder that is linked to from inside itself would be read for ever.
  return known.isDirectory() ? (TEXT_FOLDERS.includes(file) ? 'folder' : undefined) : 'file';
}

async function readFolder(folder: string, found: Reading): Promise<void> {
  const path = join(found.content, folder);
  if (SKIPPED.has(folder.split('/').at(-1) ?? '') || existsSync(join(path, MARKER))) return;
  try {
    await readEntries(folder, await readdir(path, { withFileTypes: true }), found);
  } catch (error) {
    if (!isGone(error)) found.unreadable.set(folder, unreadable(error));
  }
}

async function readText(file: string, found: Reading): Promise<void> {
  for (let n = 0; ; n++) {
    // Asked anew each time: what is put there meanwhile may be a link.
    const inside = insideFolder(found.content, file);
    try {
      if (!inside.ok) throw new NoFile(inside.problem);
      const read = () => readPlain(inside.path, MOST_BYTES);
      const bytes = await found.sums.read(file, inside.path, read);
      found.texts.set(file, bytes.toString('utf8'));
      return;
    } catch (error) {
      if (!isGone(error) || n === AGAIN) {
        found.unreadable.set(file, unreadable(error));
        return;
      }
    }
    await pause(APART);
  }
}

function isGone(error: unknown): boolean {
  return errorCode(error) === 'ENOENT';
}

function unreadable(error: unknown): Unreadable {
  if (error instanceof NoFile) return { reason: error.message, help: 'put the file itself there, or take this away' };
  if (error instanceof TooLong) return { reason: error.message, help: 'a content file is written by hand: divide it' };
  const help = isGone(error) ? 'put it back, or check again' : 'give this user the right to read it';
  return { reason: readReason(error), help };
}
