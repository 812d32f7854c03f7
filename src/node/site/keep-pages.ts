import type { MiddlewareHandler } from 'astro';
import { siteSource } from './open-site.ts';

/** A page that would be what it was is not made again. Before all else, so that what is kept is the page as it goes out. */
export const onRequest: MiddlewareHandler = async ({ url }, next) => {
  const { pages } = siteSource();
  const base = import.meta.env.BASE_URL.replace(/\/?$/, '/');
  if (!pages || !url.pathname.endsWith('/')) return next();
  let made: Response | undefined;
  const html = await pages.page(decodeURI(url.pathname.slice(base.length)), async () => {
    made = await next();
    const isHtml = made.ok && made.headers.get('content-type')?.startsWith('text/html');
    return isHtml ? made.text() : undefined;
  });
  if (html === undefined) return made ?? next();
  return new Response(html, { headers: made?.headers ?? { 'content-type': 'text/html; charset=utf-8' } });
};
