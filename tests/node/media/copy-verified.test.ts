import { hash, randomBytes } from 'node:crypto';
import { mkdir, mkdtemp, readdir, readFile, rm, stat, symlink, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { copyVerified } from '../../../src/node/media/copy-verified.ts';

// More than one piece of reading.
const BYTES = randomBytes((9 << 20) + 7);
const SUM = hash('sha256', BYTES);
const SHOT = new Date('2027-01-16T12:34:56Z');

let folder = '';
let source = '';
let target = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-copy-'));
  [source, target] = [join(folder, 'card/a.mp4'), join(folder, 'media/a.mp4')];
  await mkdir(join(folder, 'card'));
  await writeFile(source, BYTES);
  await utimes(source, SHOT, SHOT);
});
afterEach(() => rm(folder, { recursive: true, force: true }));

test('a copy has the bytes, the sum and the time of day of its source, and nothing lies beside it', async () => {
  let heard = 0;
  const copied = await copyVerified(source, target, (count) => {
    heard += count;
  });
  expect(copied).toEqual({ sha256: SUM, bytes: BYTES.length, was: false });
  expect(BYTES.equals(await readFile(target))).toBe(true);
  expect((await stat(target)).mtimeMs).toBe(SHOT.getTime());
  expect(await readdir(join(folder, 'media'))).toEqual(['a.mp4']);
  // The source once, the copy once.
  expect(heard).toBe(2 * BYTES.length);
});

test('what an earlier run has copied is gone on with; a file that is whole already is compared, not copied', async () => {
  await mkdir(join(folder, 'media'));
  const part = join(folder, 'media/.a.mp4.part');
  await writeFile(part, BYTES.subarray(0, 5_000_000));
  const { ino } = await stat(part);
  expect(await copyVerified(source, target)).toMatchObject({ sha256: SUM, was: false });
  expect((await stat(target)).ino).toBe(ino);
  expect(await copyVerified(source, target)).toEqual({ sha256: SUM, bytes: BYTES.length, was: true });
});

test('a part of another file is found out by its sum and thrown away; the next run copies it anew', async () => {
  await mkdir(join(folder, 'media'));
  await writeFile(join(folder, 'media/.a.mp4.part'), randomBytes(1000));
  await expect(copyVerified(source, target)).rejects.toThrow(/differs from the card/);
  expect(await readdir(join(folder, 'media'))).toEqual([]);
  expect(await copyVerified(source, target)).toMatchObject({ sha256: SUM });
});

test('a link that lies where a copy begins is not written through', async () => {
  await mkdir(join(folder, 'media'));
  const elsewhere = join(folder, 'elsewhere');
  await writeFile(elsewhere, 'mine');
  await symlink(elsewhere, join(folder, 'media/.a.mp4.part'));
  expect(await copyVerified(source, target)).toMatchObject({ sha256: SUM });
  expect(await readFile(elsewhere, 'utf8')).toBe('mine');
});

test('another file of that name is never written over, also one of the same length', async () => {
  await mkdir(join(folder, 'media'));
  for (const other of [randomBytes(10), randomBytes(BYTES.length)]) {
    await writeFile(target, other);
    await expect(copyVerified(source, target)).rejects.toThrow(/is another file/);
    expect(other.equals(await readFile(target))).toBe(true);
  }
});

test('stopped in the middle it keeps the part, and leaves no file that seems whole', async () => {
  const stop = new AbortController();
  const copying = copyVerified(source, target, () => stop.abort(), stop.signal);
  await expect(copying).rejects.toThrow();
  expect(await readdir(join(folder, 'media'))).toEqual(['.a.mp4.part']);
  expect(await copyVerified(source, target)).toMatchObject({ sha256: SUM });
});
