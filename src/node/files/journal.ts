import { hash } from 'node:crypto';
import { mkdir, readFile, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { z } from 'zod';
import { insideFolder } from './inside.ts';
import { placeFile } from './place-file.ts';
import { privateFolder } from './private-folder.ts';
import { readPlain } from './read-plain.ts';

// Own code on purpose: the key-value library cannot ask that a write is on the disk before it is told as done.

/** One file of a save that is under way: what it said, and what it shall say. */
export interface JournalEntry {
  readonly file: string;
  /** Nothing where the file is new. */
  readonly was: Uint8Array | undefined;
  readonly text: Uint8Array;
}

const schema = z.strictObject({
  version: z.literal(1),
  // Bytes as base64: not every caption file is UTF-8.
  files: z.array(z.strictObject({ file: z.string(), was: z.string().nullable(), text: z.string() })).min(1),
});

function journalFile(content: string): string {
  return join(content, '.liftside', 'saving.json');
}

/** Writes down what a save of several files is about to do; from here on it is done, whoever is killed. */
export async function openJournal(content: string, entries: readonly JournalEntry[]): Promise<void> {
  await privateFolder(content);
  const base64 = (bytes: Uint8Array) => Buffer.from(bytes).toString('base64');
  const files = entries.map(({ file, was, text }) => ({ file, was: was ? base64(was) : null, text: base64(text) }));
  await placeFile(journalFile(content), JSON.stringify({ version: 1, files }));
}

/** The save is done, or taken back. */
export async function closeJournal(content: string): Promise<void> {
  await rm(journalFile(content), { force: true });
}

/** True where a save was broken off, or is under way. */
export async function hasJournal(content: string): Promise<boolean> {
  return (await readJournal(content)) !== undefined;
}

/** What became of a save that was broken off. */
export interface Recovered {
  /** Files that now say what the save wanted. */
  readonly finished: readonly string[];
  /** Files that somebody has changed since; what the save wanted lies beside, by path relative to the content folder. */
  readonly aside: readonly { readonly file: string; readonly kept: string }[];
}

/**
 * Ends a save of several files that was broken off: all of them, or none. A file that says neither what it said before
 * nor what it was to say has been changed by somebody since, and stays as it is: the text of the save is kept in
 * `.liftside/unsaved`. To be called by whoever holds the content's lock.
 */
export async function recover(content: string): Promise<Recovered> {
  const journal = await readJournal(content);
  if (!journal) return { finished: [], aside: [] };
  const found = await Promise.all(
    journal.files.map(async ({ file, was, text }) => {
      const inside = insideFolder(content, file);
      const path = inside.ok ? inside.path : undefined;
      const now = path === undefined ? undefined : await readPlain(path).catch(() => undefined);
      const bytes = Buffer.from(text, 'base64');
      const before = was === null ? undefined : Buffer.from(was, 'base64');
      const untouched = now === undefined ? before === undefined : before?.equals(now) === true;
      return { file, path, bytes, done: now?.equals(bytes) === true, untouched };
    }),
  );
  const foreign = found.filter(({ done, untouched }) => !done && !untouched);
  // Where nothing was placed and somebody has written since, none is the right end.
  const forward = foreign.length === 0 || found.some(({ done }) => done);
  const finished: string[] = [];
  const aside: { file: string; kept: string }[] = [];
  for (const { file, path, bytes, done, untouched } of found) {
    if (done) finished.push(file);
    else if (untouched && forward && path !== undefined) {
      await mkdir(dirname(path), { recursive: true });
      await placeFile(path, bytes);
      finished.push(file);
    } else aside.push({ file, kept: await putAside(content, bytes, file) });
  }
  await closeJournal(content);
  return { finished: forward ? finished : [], aside };
}

async function putAside(content: string, bytes: Uint8Array, file: string): Promise<string> {
  const mark = hash('sha256', bytes).slice(0, 8);
  const kept = `.liftside/unsaved/${mark}-${file.replaceAll('/', '-')}`;
  await mkdir(join(content, '.liftside', 'unsaved'), { recursive: true });
  await placeFile(join(content, kept), bytes);
  return kept;
}

async function readJournal(content: string): Promise<z.infer<typeof schema> | undefined> {
  const text = await readFile(journalFile(content), 'utf8').catch(() => undefined);
  if (text === undefined) return undefined;
  try {
    return schema.parse(JSON.parse(text));
  } catch {
    // It is written whole or not at all: what cannot be read was never ours.
    return undefined;
  }
}
