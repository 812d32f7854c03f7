import { access, constants, mkdir, rm, statfs, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { OutsideFailure } from '../failure.ts';
import { errorCode } from '../files/error-code.ts';

/** Bytes that can still be written where a folder lies. */
export async function spaceAt(folder: string): Promise<number> {
  const { bavail, bsize } = await statfs(folder);
  return bavail * bsize;
}

/** With less than this left, what was written last may be cut short without a word: not every writer looks. */
const FULL = 64 << 10;

/** @throws OutsideFailure when the disk of a folder is full */
export async function holdRoom(folder: string): Promise<void> {
  if ((await spaceAt(folder)) < FULL) throw diskFull(folder);
}

/** What to say when there is no more room in the middle of the work. */
export function diskFull(folder: string): OutsideFailure {
  return new OutsideFailure(
    `the disk of ${folder} is full`,
    'free some space on it, then run it again: what is done is kept',
  );
}

const WHY: Readonly<Record<string, string>> = {
  EROFS: 'the disk is read-only',
  EACCES: 'there is no permission',
  EPERM: 'there is no permission',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  ENOTDIR: 'a file is in the way',
  EEXIST: 'a file is in the way',
};

/**
 * Makes a folder if need be, and tries whether something can be written into it.
 *
 * @param help what to do when it cannot
 * @throws OutsideFailure when it cannot, with the reason
 */
export async function makeWritable(folder: string, help: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
    const trial = join(folder, '.trial');
    await writeFile(trial, '');
    await rm(trial, { force: true });
  } catch (error) {
    const why = (await refusalAbove(folder)) ?? errorCode(error) ?? String(error);
    throw new OutsideFailure(`nothing can be written to ${folder}: ${WHY[why] ?? why}`, help);
  }
}

/** Why the nearest folder that is there cannot be written to: making one in it may fail with a code that says nothing. */
async function refusalAbove(folder: string): Promise<string | undefined> {
  for (let at = folder; ; at = dirname(at)) {
    const refused = await access(at, constants.W_OK).then(() => undefined, errorCode);
    if (refused !== 'ENOENT' || at === dirname(at)) return refused;
  }
}
