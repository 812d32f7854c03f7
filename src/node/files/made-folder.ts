import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { entriesBelow } from './files-below.ts';
import { placeFile } from './place-file.ts';

/** Lies in every folder that Liftside made, and in no other: only such a folder is ever replaced. */
export const MARKER = '.liftside-made.json';

/** What a folder of files can hold, in the words that people are told. */
export type Holds = 'a site' | 'a rendered programme' | 'a package' | 'a collection';

const schema = z.strictObject({
  madeBy: z.literal('Liftside'),
  version: z.literal(1),
  holds: z.string(),
  /** Everything else in it, so that what somebody puts there later is known for theirs. */
  files: z.array(z.string()),
});
type Made = z.infer<typeof schema>;

/** What file managers leave in a folder that is only looked at. */
const DROPPED = new Set(['.DS_Store', 'Thumbs.db', 'desktop.ini']);

/** Marks a folder as made and whole: written last. */
export async function markFolder(folder: string, holds: Holds): Promise<void> {
  const files = entriesBelow(folder)
    .filter((file) => file !== MARKER)
    .toSorted();
  const made: Made = { madeBy: 'Liftside', version: 1, holds, files };
  await placeFile(join(folder, MARKER), `${JSON.stringify(made, null, 1)}\n`);
}

/** What the marker of a folder says; nothing where there is none, or it was not written by {@link markFolder}. */
export async function readMarker(folder: string): Promise<Made | undefined> {
  try {
    return schema.parse(JSON.parse(await readFile(join(folder, MARKER), 'utf8')));
  } catch {
    return undefined;
  }
}

/** Files of a made folder that its maker did not put there, by path relative to it. */
export async function foreignFiles(folder: string, { files }: Made): Promise<string[]> {
  const own = new Set([...files, MARKER]);
  return entriesBelow(folder).filter((file) => !own.has(file) && !DROPPED.has(file.split('/').at(-1) ?? ''));
}
