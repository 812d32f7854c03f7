import type { Shop } from '../model/index.ts';
import { escapeHtml } from './escape.ts';
import { languagesOf } from './languages.ts';
import { lessonsParts, stepsParts } from './list-parts.ts';

/** Paths of the pages that a stranger may be led to, relative to the site; papers of a class and drafts are left out; in each language. */
export function sitePages(shop: Shop): string[] {
  const { info, lessons, machines, classes } = shop;
  const [, ...others] = languagesOf(info);
  const pages = [
    '',
    'steps/',
    ...stepsParts(shop).map(({ name }) => `steps/${name}/`),
    ...lessonsParts(shop).map(({ name }) => `lessons/of/${name}/`),
    ...lessons.filter(({ draft }) => !draft).map(({ id }) => `lessons/${id}/`),
    ...machines.map(({ id }) => `specs/${id}/`),
    ...classes.map(({ id }) => `classes/${id}/`),
    'corrections/',
    'measure/',
  ];
  return ['', ...others.map((tag) => `${tag}/`)].flatMap((prefix) => pages.map((path) => `${prefix}${path}`));
}

/**
 * A site map.
 *
 * Source: Sitemap protocol 0.9 (sitemaps.org): urlset, url, loc; addresses whole and escaped.
 */
export function siteMap(addresses: readonly string[]): string {
  const urls = addresses.map((address) => `  <url><loc>${escapeHtml(address)}</loc></url>`);
  return `<?xml version="1.0" encoding="UTF-8"?>
<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">
${urls.join('\n')}
</urlset>
`;
}
