import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { outsideReason } from '../../core/model/index.ts';
import type { KeptPages } from './kept-pages.ts';
import { type CountsKept, provideSite, type SiteSource } from './open-site.ts';
import type { PageMaker } from './page-maker.ts';

/**
 * Writes every page of a site into a folder.
 *
 * @param into absolute path
 * @param wishes `kept` takes over what the last build has made, `counts` knows what it has counted; left out, all is made
 */
export async function makePages(
  { source, maker, kept, counts }: { source: SiteSource; maker: PageMaker; kept?: KeptPages; counts?: CountsKept },
  into: string,
): Promise<void> {
  provideSite({ ...source, ...(counts && { counts }) });
  const folders = new Set<string>();
  for (const page of await maker.paths()) {
    // The folder was made for this: nobody has put a link on the way.
    const outside = outsideReason(page.file);
    if (outside !== undefined) throw new Error(`a page cannot be written to ${page.file}: ${outside}`);
    const to = join(into, page.file);
    if (!folders.has(dirname(to))) mkdirSync(dirname(to), { recursive: true });
    folders.add(dirname(to));
    if (kept?.takeOver(page, to)) continue;
    const bytes = await maker.make(page);
    if (bytes === undefined) continue;
    writeFileSync(to, bytes);
    kept?.note(page, bytes, to);
  }
}
