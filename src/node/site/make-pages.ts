import { mkdir, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { fileInside } from '../files/index.ts';
import type { KeptPages } from './kept-pages.ts';
import { provideSite, type SiteSource } from './open-site.ts';
import type { PageMaker } from './page-maker.ts';

/**
 * Writes every page of a site into a folder.
 *
 * @param into absolute path
 * @param kept takes over what the last build has made; left out, every page is made
 */
export async function makePages(
  { source, maker, kept }: { source: SiteSource; maker: PageMaker; kept?: KeptPages },
  into: string,
): Promise<void> {
  provideSite(source);
  const folders = new Set<string>();
  for (const page of await maker.paths()) {
    const to = fileInside(into, page.file);
    if (!folders.has(dirname(to))) await mkdir(dirname(to), { recursive: true });
    folders.add(dirname(to));
    if (await kept?.takeOver(page, to)) continue;
    const bytes = await maker.make(page);
    if (bytes === undefined) continue;
    await writeFile(to, bytes);
    await kept?.note(page, bytes, to);
  }
}
