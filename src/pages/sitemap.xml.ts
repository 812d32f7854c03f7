import type { APIRoute } from 'astro';
import { href } from '../components/href.ts';
import { siteMap, sitePages } from '../core/pages/index.ts';
import { openSite } from '../node/site/open-site.ts';

/** The site map; empty while the shop has not said where its site is, for addresses in it are whole. */
export const GET: APIRoute = async ({ site }) => {
  const { shop } = await openSite();
  const addresses = site ? sitePages(shop).map((path) => new URL(href(path), site).href) : [];
  return new Response(siteMap(addresses), { headers: { 'content-type': 'application/xml; charset=utf-8' } });
};
