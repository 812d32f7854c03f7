import type { MiddlewareHandler } from 'astro';
import { allowStylesOfHead } from './page-policy.ts';

/** What of styles stands in the head of a built page is named by its policy, and so may style. */
export const onRequest: MiddlewareHandler = async (_context, next) => {
  const response = await next();
  if (!response.headers.get('content-type')?.startsWith('text/html')) return response;
  const { status, headers } = response;
  return new Response(allowStylesOfHead(await response.text()), { status, headers });
};
