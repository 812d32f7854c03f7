import type { APIRoute } from 'astro';
import { searchData } from '../core/search/index.ts';
import { openSite, stepsPartsOfSite } from '../node/site/open-site.ts';
import { dividedHeadOf } from '../node/site/site-search.ts';

/** What the step index searches, read by it when somebody types; of a large shop where the parts of it are. */
export const GET: APIRoute = async (context) => {
  const { shop } = await openSite(context);
  const divided = (await stepsPartsOfSite()).length > 0;
  return new Response(JSON.stringify(divided ? dividedHeadOf(shop) : searchData(shop)), {
    headers: { 'content-type': 'application/json' },
  });
};
