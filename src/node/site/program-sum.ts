import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { filesBelow } from '../files/index.ts';

/**
 * Sum of all that makes pages besides the content: the program itself, its packages by their versions, the Node it runs
 * on with its knowledge of languages, and the time zone.
 *
 * @param home absolute path of Liftside itself
 * @param told what the program is told, such as the base path
 */
export async function programSum(home: string, told: unknown): Promise<string> {
  const sum = createHash('sha256');
  const { versions, env } = process;
  sum.update(JSON.stringify([told, versions, env.TZ, Intl.DateTimeFormat().resolvedOptions().timeZone]));
  for (const file of ['package.json', 'package-lock.json'])
    sum.update(await readFile(join(home, file)).catch(() => '')).update('\0');
  const files = filesBelow(join(home, 'src')).toSorted();
  for (const file of files) sum.update(`${file}\0`).update(readFileSync(join(home, 'src', file)));
  return sum.digest('hex');
}
