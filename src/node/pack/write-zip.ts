import { hash } from 'node:crypto';
import { mkdir, open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import yazl from 'yazl';
import { SUMS_FILE } from '../../core/pack/index.ts';
import { OutsideFailure } from '../failure.ts';
import { besideOf, clearBeside, diskReason, flushFolder, withLock } from '../files/index.ts';
import { listEntry, type PackEntry, readEntry, type WrittenFile } from './entry.ts';
import { isPackageArchive } from './read-archive.ts';
import './native-crc.ts';
import { Pieces, writePieces } from './pieces.ts';
import { Summing } from './summing.ts';
import type { WriteWishes } from './write-folder.ts';

const MODE = 0o100644;
/** What a book says it is, in an entry of its own. */
const MIMETYPE = 'mimetype';
/** Films and fonts are pressed already; pressing them again costs time and wins nothing. */
const PRESSED = /\.(?:mp4|mov|m4v|mkv|webm|mts|mp3|m4a|jpe?g|png|webp|avif|gif|woff2)$/i;

/**
 * A package as one zip file, whole or not at all, made piece by piece. The same entries make the same bytes. One at a
 * time: who comes meanwhile is told, and what a killed run has left beside it goes.
 *
 * @throws OutsideFailure when there is something else in its place, or the disk refuses
 */
export async function writeZip(entries: readonly PackEntry[], wishes: WriteWishes): Promise<readonly WrittenFile[]> {
  const { to, signal } = wishes;
  await holdFile(to);
  const folder = dirname(to);
  try {
    await mkdir(folder, { recursive: true });
    return await withLock(
      join(folder, `.${basename(to)}.lock`),
      { what: 'packing', patience: 0, passing: true },
      async () => {
        await clearBeside(to);
        return replace(entries, wishes);
      },
    );
  } catch (error) {
    if (error instanceof OutsideFailure || signal.aborted) throw error;
    throw new OutsideFailure(
      `${to} could not be written: ${diskReason(error)}`,
      'nothing that was there has changed; name a file in a folder that is there, on a disk with room',
    );
  }
}

async function replace(entries: readonly PackEntry[], wishes: WriteWishes): Promise<readonly WrittenFile[]> {
  const { to, signal, wrote, pressAll = false } = wishes;
  const beside = besideOf(to);
  try {
    const written = await fill(entries, beside, signal, wrote, pressAll);
    await rename(beside, to);
    await flushFolder(dirname(to));
    return written;
  } finally {
    await rm(beside, { force: true });
  }
}

/** Only what pack has made, or nothing, is replaced. */
async function holdFile(to: string): Promise<void> {
  const known = await stat(to).catch(() => undefined);
  if (!known || (known.isFile() && (known.size === 0 || (await isPackageArchive(to))))) return;
  throw new OutsideFailure(
    `${to} is there, and is no package that Liftside has made`,
    'name a new file, or one that holds an earlier package; nothing was changed',
    true,
  );
}

async function fill(
  entries: readonly PackEntry[],
  beside: string,
  signal: AbortSignal,
  wrote: (bytes: number) => void,
  pressAll: boolean,
): Promise<readonly WrittenFile[]> {
  const zip = new yazl.ZipFile();
  const pieces = new Pieces();
  const written: WrittenFile[] = [];
  let list: ReturnType<typeof listEntry> | undefined;
  // A film that cannot be read, or has another length than before, ends the whole.
  const failure = new AbortController();
  const fail = (error: unknown) => failure.abort(error);
  const ended = AbortSignal.any([signal, failure.signal]);
  zip.on('error', fail);
  for (const entry of entries) {
    if (entry.path === MIMETYPE && 'bytes' in entry.from) {
      // EPUB 3.2, Open Container Format, 4.3: first, stored, with its length before it.
      const bytes = Buffer.from(entry.from.bytes);
      zip.addBuffer(bytes, entry.path, { ...optionsFor(entry.path, false), compress: false });
      written.push({ path: entry.path, bytes: bytes.length, sha256: hash('sha256', bytes) });
      wrote(bytes.length);
      continue;
    }
    zip.addReadStreamLazy(entry.path, { ...optionsFor(entry.path, pressAll), size: entry.bytes }, (give) => {
      const summing = new Summing(wrote);
      summing.once('end', () => written.push({ path: entry.path, ...summing.sum() }));
      pipeline(readEntry(entry, pieces), summing, { signal: ended }).catch(fail);
      give(null, summing);
    });
  }
  zip.addReadStreamLazy(SUMS_FILE, optionsFor(SUMS_FILE, pressAll), (give) => {
    list = listEntry(written);
    give(null, Readable.from([Buffer.from(list.text)]));
  });
  zip.end();
  try {
    await pipeline(zip.outputStream, writePieces(beside, pieces), { signal: ended });
  } catch (error) {
    throw failure.signal.aborted ? failure.signal.reason : error;
  }
  const handle = await open(beside, 'r');
  await handle.sync().finally(() => handle.close());
  return list ? [...written, list.file] : written;
}

function optionsFor(path: string, pressAll: boolean) {
  // The format keeps the time of a clock on the wall, so that this is the same in every time zone.
  const always = { mtime: new Date(2000, 0, 1), mode: MODE, forceDosTimestamp: true };
  if (pressAll) return { ...always, compressionLevel: 1 };
  return { ...always, compress: !PRESSED.test(path) };
}
