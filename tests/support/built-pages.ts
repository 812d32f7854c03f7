import { readdirSync } from 'node:fs';
import { relative, sep } from 'node:path';

/**
 * Address of every page of the built demo, relative to its root; `404.html` among them. Those in a further language are
 * the same pages, and have a test of their own.
 */
export function builtPages(): string[] {
  const site = process.env.LIFTSIDE_TEST_SITE ?? '';
  return readdirSync(site, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.html'))
    .map((entry) => relative(site, `${entry.parentPath}/${entry.name}`).split(sep).join('/'))
    .map((path) => path.replace(/(^|\/)index\.html$/, '$1'))
    .filter((path) => !path.startsWith('es/'))
    .toSorted();
}
