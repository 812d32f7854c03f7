import { createHash, type Hash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { type FileHandle, lstat, mkdir, open, rename, rm, stat, utimes } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { OutsideFailure } from '../failure.ts';
import { flushFolder } from '../files/place-file.ts';
import { diskFull } from './disk.ts';

const CHUNK = 4 << 20;

/** What a verified copy came to. */
export interface Copied {
  /** Of every byte of source and copy, hexadecimal. */
  readonly sha256: string;
  readonly bytes: number;
  /** It was there already, byte for byte. */
  readonly was: boolean;
}

/** SHA-256 of a file (FIPS 180-4). @param onBytes hears of each piece read */
export async function sumOf(path: string, onBytes: (count: number) => void, signal?: AbortSignal): Promise<string> {
  const hash = createHash('sha256');
  for await (const chunk of createReadStream(path, { highWaterMark: CHUNK, ...(signal && { signal }) })) {
    hash.update(chunk);
    onBytes(chunk.length);
  }
  return hash.digest('hex');
}

/**
 * Copies a file and reads the copy back: it counts only when the SHA-256 of both agree. Written under a name of its own
 * and put in place when it is sure; what an earlier run has copied of it is kept and gone on with. The time of day at
 * which it was written goes along.
 *
 * @param onBytes hears of each piece: of the source once, of the copy once
 * @throws OutsideFailure when another file has that name, when the copy differs, or the disk says no
 */
export async function copyVerified(
  source: string,
  target: string,
  onBytes: (count: number) => void = () => {},
  signal?: AbortSignal,
): Promise<Copied> {
  const facts = await stat(source);
  const there = await stat(target).catch(() => undefined);
  if (there) return compareCopy(source, target, facts.size, there.size, onBytes, signal);
  await mkdir(dirname(target), { recursive: true });
  const part = join(dirname(target), `.${basename(target)}.part`);
  const sha256 = await copyPart(source, part, onBytes, signal);
  const copied = await sumOf(part, onBytes, signal);
  if (copied !== sha256) {
    await rm(part, { force: true });
    throw new OutsideFailure(
      `the copy of ${basename(source)} differs from the card`,
      'run it again; if it happens once more, try another reader or another disk',
    );
  }
  await utimes(part, facts.atime, facts.mtime);
  await rename(part, target);
  await flushFolder(dirname(target));
  return { sha256, bytes: facts.size, was: false };
}

async function compareCopy(
  source: string,
  target: string,
  bytes: number,
  there: number,
  onBytes: (count: number) => void,
  signal?: AbortSignal,
): Promise<Copied> {
  const same = bytes === there && (await sumOf(source, onBytes, signal));
  if (same && same === (await sumOf(target, onBytes, signal))) return { sha256: same, bytes, was: true };
  throw new OutsideFailure(
    `${basename(target)} is there already, and is another file`,
    `nothing is written over: move ${target} away, or name another recording`,
  );
}

/** Writes what is not in the part yet; the whole source is read, so that its sum is that of the card now. */
async function copyPart(
  source: string,
  part: string,
  onBytes: (count: number) => void,
  signal?: AbortSignal,
): Promise<string> {
  const before = await lstat(part).catch(() => undefined);
  // A link of that name, which a stranger's folder may hold, is taken away and not written through.
  if (before && !before.isFile()) await rm(part, { force: true });
  const had = before?.isFile() ? before.size : 0;
  const hash = createHash('sha256');
  const file = await open(part, before?.isFile() ? 'r+' : 'wx');
  try {
    const at = await fill(source, file, had, hash, onBytes, signal);
    await file.truncate(at);
    await file.sync();
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'ENOSPC' || code === 'EDQUOT') throw diskFull(dirname(part));
    throw error;
  } finally {
    await file.close();
  }
  return hash.digest('hex');
}

async function fill(
  source: string,
  file: FileHandle,
  had: number,
  hash: Hash,
  onBytes: (count: number) => void,
  signal?: AbortSignal,
): Promise<number> {
  let at = 0;
  for await (const chunk of createReadStream(source, { highWaterMark: CHUNK, ...(signal && { signal }) })) {
    const bytes = chunk as Buffer;
    hash.update(bytes);
    const skip = Math.min(bytes.length, Math.max(0, had - at));
    if (skip < bytes.length) await file.write(bytes, skip, bytes.length - skip, at + skip);
    at += bytes.length;
    onBytes(bytes.length);
  }
  return at;
}
