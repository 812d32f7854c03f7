import type { MiddlewareHandler } from 'astro';
import { findingsHtml, findingsPage } from '../../core/pages/index.ts';
import { errorsOf } from './content-errors.ts';
import { openSite, type Site } from './open-site.ts';

/** Where the content file of a page lies. */
const FILES: Readonly<Record<string, (id: string) => string>> = {
  lessons: (id) => `lessons/${id}.mdx`,
  classes: (id) => `classes/${id}.yaml`,
  specs: (id) => `specs/${id}.yaml`,
};

/**
 * On the local site, content with errors is shown as far as it goes, with what is wrong above it; a page that cannot be
 * made from it is a page that says what to mend. Never a fault of the server: somebody is writing, and saves half done.
 */
export const onRequest: MiddlewareHandler = async ({ url }, next) => {
  const site = await openSite().catch(() => undefined);
  const errors = site ? errorsOf(site) : [];
  if (!site || errors.length === 0) return next();
  const base = (import.meta as { env?: { BASE_URL?: string } }).env?.BASE_URL ?? '/';
  try {
    const response = await next();
    if (!response.headers.get('content-type')?.startsWith('text/html')) return response;
    if (response.status === 404 && isWritten(url.pathname.slice(base.length), site))
      return asPage(findingsPage(errors, base));
    // Read whole, since a value that is missing may be met in the middle of a page.
    const html = await response.text();
    const shown = html.replace(/<body[^>]*>/, (body) => `${body}${findingsHtml(errors)}`);
    return new Response(shown, { status: response.status, headers: { 'content-type': 'text/html; charset=utf-8' } });
  } catch {
    return asPage(findingsPage(errors, base));
  }
};

function asPage(html: string): Response {
  return new Response(html, { headers: { 'content-type': 'text/html; charset=utf-8' } });
}

/** True for the page of a content file that is there, and cannot be read as it is. */
function isWritten(path: string, { texts }: Site): boolean {
  const [, kind = '', id = ''] = /^\/?(lessons|classes|specs)\/([^/]+)\//.exec(path) ?? [];
  const file = FILES[kind]?.(id);
  return file !== undefined && texts.has(file);
}
