import type { MiddlewareHandler } from 'astro';
import { allowStylesOfHead } from './page-policy.ts';

/** In a built page the style sheets stand in the head, where its policy lets them style. */
export const onRequest: MiddlewareHandler = async (_context, next) => {
  const response = await next();
  if (!response.headers.get('content-type')?.startsWith('text/html')) return response;
  const { status, headers } = response;
  return new Response(allowStylesOfHead(await response.text()), { status, headers });
};
