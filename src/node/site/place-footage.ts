import { type BigIntStats, constants } from 'node:fs';
import { access, copyFile, link, mkdir, readFile, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { z } from 'zod';
import { OutsideFailure } from '../failure.ts';
import { diskReason, fileInside } from '../files/index.ts';
import { footageOf } from './footage.ts';
import { FOOTAGE } from './footage-paths.ts';
import type { Site } from './open-site.ts';

/** In a built site: of what each file of the footage is a copy. */
const NOTES = '.liftside-footage.json';

/** What tells one state of a file from another: bytes, time of change, number on its disk. */
const stamps = z.strictObject({ original: z.string(), copy: z.string() });
const schema = z.record(z.string(), stamps);
export type FootageNotes = z.infer<typeof schema>;

/**
 * Puts the footage into a site that is being built: always a file of its own, never a hard link to an original, so that
 * a program which changes the site changes nothing that a camera wrote. Where the file system can, the copy shares its
 * blocks with the original until one of them is written to. A copy of the last build that is still the copy of the same
 * original is taken over: linked, for the last site goes when the new one has taken its place.
 *
 * @param out absolute path of the site being built
 * @param last absolute path of the site of the last build
 * @throws OutsideFailure when an original cannot be read
 */
export async function placeFootage(site: Site, out: string, last: string | undefined): Promise<void> {
  const known = last === undefined ? {} : await readFootageNotes(last);
  const notes: FootageNotes = {};
  for (const [path, file] of footageOf(site)) {
    const to = fileInside(join(out, FOOTAGE), path);
    await mkdir(dirname(to), { recursive: true });
    const original = await stampOf(file);
    const before = Object.hasOwn(known, path) ? known[path] : undefined;
    const taken =
      last !== undefined &&
      before?.original === original &&
      (await takeOver(fileInside(join(last, FOOTAGE), path), to, before.copy));
    if (!taken) await copy(file, to);
    notes[path] = { original, copy: await stampOf(to) };
  }
  await writeFile(join(out, NOTES), JSON.stringify(notes));
}

/** False where the copy is no longer what it was, or the disk knows no links. */
async function takeOver(from: string, to: string, stamp: string): Promise<boolean> {
  if ((await stampOf(from).catch(() => undefined)) !== stamp) return false;
  return link(from, to).then(
    () => true,
    () => false,
  );
}

async function copy(from: string, to: string): Promise<void> {
  try {
    await copyFile(from, to, constants.COPYFILE_FICLONE);
  } catch (error) {
    // What the disk of the site refuses is told by whoever makes the folder.
    await access(from, constants.R_OK).catch((refused: unknown) => {
      throw new OutsideFailure(
        `${from} could not be read: ${diskReason(refused)}`,
        'give this user the right to read it',
      );
    });
    throw error;
  }
}

export async function stampOf(path: string): Promise<string> {
  return stampIn(await stat(path, { bigint: true }));
}

/** Bytes, time of change in nanoseconds, number of the file and of its disk: a further link to it changes nothing. */
export function stampIn({ size, mtimeNs, ino, dev }: BigIntStats): string {
  return [size, mtimeNs, ino, dev].join(' ');
}

/** When a file was changed that had this stamp, ms since 1970. */
export function changedAt(stamp: string): number {
  return Number(stamp.split(' ')[1] ?? 0) / 1e6;
}

/** Of what each file of a built site's footage is a copy, by path below it. */
export async function readFootageNotes(site: string): Promise<FootageNotes> {
  try {
    return schema.parse(JSON.parse(await readFile(join(site, NOTES), 'utf8')));
  } catch {
    return {};
  }
}
