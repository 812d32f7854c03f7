import type { Page } from 'playwright-core';
import { insideFolder } from '../files/index.ts';

/** Where no site is published, its pages stand under a name that is nobody's and never will be (RFC 2606). */
const NOWHERE = 'http://site.invalid/';

/** A built site that a browser reads from its folder. */
export interface SiteInBrowser {
  /** Absolute path of the built site. */
  readonly site: string;
  /** Address under which it is published: what leads to a page of it leads there. */
  readonly published?: string;
}

/** A browser's page reads a built site from its folder, under the address of the published site: nothing is asked of the network. */
export async function readFromFolder(page: Page, { site }: SiteInBrowser): Promise<void> {
  await page.route('**/*', (route) => {
    const { pathname } = new URL(route.request().url());
    const inside = insideFolder(site, decodeURIComponent(pathname.slice(1)).replace(/(^|\/)$/, '$1index.html'));
    return inside.ok ? route.fulfill({ path: inside.path }) : route.abort();
  });
}

/**
 * Opens a page of a built site, to be printed, after `readFromFolder`. Its links lead to the published site, for a paper
 * is read elsewhere; where none is published, a link to another page leads nowhere and is plain text.
 *
 * @param path of the page on the site
 */
export async function openToPrint(page: Page, path: string, { published }: SiteInBrowser): Promise<void> {
  await page.goto(new URL(`/${path}`, published ?? NOWHERE).href, { waitUntil: 'load' });
  await page.evaluate('document.fonts.ready');
  if (published === undefined) await page.evaluate(UNLINK);
}

/** Runs in the page. */
const UNLINK = `for (const link of [...document.links]) {
  const here = link.origin === location.origin;
  if (here && !(link.hash !== '' && link.pathname === location.pathname)) link.removeAttribute('href');
}`;

/** The open page as PDF, on the paper that it names. */
export function pdfOf(page: Page): Promise<Uint8Array> {
  return page.pdf({ preferCSSPageSize: true, printBackground: true, tagged: true, outline: true });
}
