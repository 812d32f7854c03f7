import { cp, link, stat } from 'node:fs/promises';
import { basename, extname } from 'node:path';
import type { Workplace } from '../media/pool.ts';
import type { MediaStore } from './media-store.ts';

/** Brings a result from the media store into the place's own, under the same name. */
export async function takeInto(path: string, from: MediaStore, place: Workplace): Promise<void> {
  const temporary = place.store.temporary(extname(path).slice(1));
  await bring(basename(path), temporary, from, place);
  await place.store.keep(temporary, path);
}

/** Brings a file or folder from the media store to a path of this machine, where nothing is yet. */
export async function bring(name: string, to: string, from: MediaStore, { store }: Workplace): Promise<void> {
  const fetched = await from.get(name, await store.temporaryFolder());
  if ((await stat(fetched)).isDirectory()) await cp(fetched, to, { recursive: true });
  else await link(fetched, to).catch(() => cp(fetched, to));
}
