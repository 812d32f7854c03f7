import type { APIRoute } from 'astro';
import { searchData } from '../core/search/index.ts';
import { openSite } from '../node/site/open-site.ts';

/** What the step index searches, read by it when somebody types. */
export const GET: APIRoute = async (context) => {
  const { shop } = await openSite(context);
  return new Response(JSON.stringify(searchData(shop)), { headers: { 'content-type': 'application/json' } });
};
