import type { APIRoute } from 'astro';
import { href } from '../components/href.ts';

/** Everybody may read everything (RFC 9309); where the site map is, once the site's address is known. */
export const GET: APIRoute = ({ site }) =>
  new Response(
    ['User-agent: *', 'Allow: /', ...(site ? [`Sitemap: ${new URL(href('sitemap.xml'), site).href}`] : []), ''].join(
      '\n',
    ),
    { headers: { 'content-type': 'text/plain; charset=utf-8' } },
  );
