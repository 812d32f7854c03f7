import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { MediaFacts } from '../../core/model/index.ts';
import { readManifest } from './rendered.ts';

/**
 * Camera files that stayed in the shop where they were taken, while their finished programme came here in a package:
 * what was found out about them there, by path in the content folder.
 *
 * @param content absolute path of the content folder
 */
export async function findAway(content: string): Promise<ReadonlyMap<string, MediaFacts>> {
  const folder = join(content, '.liftside', 'rendered');
  const away = new Map<string, MediaFacts>();
  for (const recording of (await readdir(folder).catch(() => [])).toSorted()) {
    const manifest = await readManifest(join(folder, recording));
    for (const [file, facts] of Object.entries(manifest?.away ?? {})) away.set(file, facts as MediaFacts);
  }
  return away;
}
