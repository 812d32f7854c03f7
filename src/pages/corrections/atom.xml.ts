import type { APIRoute } from 'astro';
import { correctionsFeed } from '../../node/site/corrections-feed.ts';
import { openSite } from '../../node/site/open-site.ts';

export const GET: APIRoute = async ({ site }) =>
  new Response(correctionsFeed(await openSite(), site, import.meta.env.BASE_URL).atom1(), {
    headers: { 'content-type': 'application/atom+xml; charset=utf-8' },
  });
