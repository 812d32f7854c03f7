import type { APIRoute, GetStaticPathsOptions } from 'astro';
import { openSite, siteOfRoute, stepsPartsOfSite } from '../../node/site/open-site.ts';
import { dividedSearchOf } from '../../node/site/site-search.ts';

export async function getStaticPaths({ routePattern }: GetStaticPathsOptions) {
  if ((await stepsPartsOfSite()).length === 0) return [];
  const { shop } = await siteOfRoute(routePattern);
  return [...dividedSearchOf(shop).parts.keys()].map((part) => ({ params: { part } }));
}

/** A part of what the search of a large shop looks up. */
export const GET: APIRoute = async (context) => {
  const { shop } = await openSite(context);
  const part = dividedSearchOf(shop).parts.get(context.params.part ?? '');
  return part
    ? new Response(JSON.stringify(part), { headers: { 'content-type': 'application/json' } })
    : new Response(null, { status: 404 });
};
