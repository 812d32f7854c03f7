import { existsSync } from 'node:fs';
import { mkdir, readdir } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { checkPackage, openPackage } from '../../../src/node/pack/index.ts';
import { pack, packer } from './packing.ts';
import { child, inFolder } from './run.ts';

export interface PackingKill {
  /** Before this change of the disk, counted from 1. */
  readonly place?: number;
  /** Or after so many bytes of the entries. */
  readonly bytes?: number;
}

/**
 * A package made over an earlier one, or where none is, killed on the way: what is there then, and after the next run.
 *
 * @returns which package is there after the kill: the earlier, the later or none; what stands beside it then, and after
 *   the next run; whether what was there, and what the next run makes, is whole
 */
export async function killPacking(name: string, before: boolean, kill: PackingKill) {
  return inFolder('packing', async (folder) => {
    const content = join(folder, 'content');
    const to = join(folder, 'out', name);
    await mkdir(content);
    await mkdir(dirname(to));
    if (before) await pack(to, content, 'old');
    const killed = await child(packer(to, content, 'new', kill.bytes), {
      ...(kill.place !== undefined && { killAt: { place: kill.place, half: false } }),
    });
    const there = existsSync(to) ? await sound(to) : 'none';
    const beside = (await readdir(dirname(to))).filter((file) => file !== basename(to));
    await pack(to, content, 'old');
    return {
      signal: killed.signal,
      there,
      beside,
      again: [await sound(to), ...(await readdir(dirname(to)))],
    };
  });
}

/** The title of a package that is whole; otherwise that it is damaged. */
async function sound(path: string): Promise<string> {
  const files = await openPackage(path);
  try {
    const { manifest, whole } = await checkPackage(files, new AbortController().signal);
    return whole && manifest ? manifest.title : 'damaged';
  } finally {
    await files.close();
  }
}

/** What a kill has left beside a package and cannot be known for what it is by its name. */
export function leftBy(name: string, beside: readonly string[]): readonly string[] {
  const uuid = '[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}';
  const known = new RegExp(
    `^\\.${name.replaceAll('.', '\\.')}\\.(((next|last)-)?${uuid}|lock(-owner\\.json|-journal)?)$`,
  );
  return beside.filter((file) => !known.test(file));
}
