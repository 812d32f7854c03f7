import { join } from 'node:path';
import { type LoadedShop, withScratchFolder } from '../files/index.ts';
import { launchChromium } from '../programs/index.ts';
import { buildSite } from './build-site.ts';
import { serveSite } from './serve-site.ts';

interface PrintOptions {
  /** Absolute path of the content folder. */
  readonly content: string;
  /** Absolute path of Liftside itself. */
  readonly home: string;
  readonly now: () => Date;
  /** Reads the content folder, once. */
  readonly load: () => Promise<LoadedShop>;
  readonly classId: string;
  /** Name of the paper's page. */
  readonly paper: 'run-sheet' | 'handout' | 'kit-list' | 'job-breakdown';
  /** Paper to print on; the shop's own when left out. */
  readonly size?: 'A4' | 'letter';
  /** Absolute path of a Chromium. */
  readonly browser: string;
  readonly signal: AbortSignal;
}

/**
 * A paper of a class as PDF, on the size of paper asked for, or the shop's own: the page of the site as Chromium prints it.
 * The site is built, without its footage, into a folder that is gone afterwards.
 *
 * @throws ContentErrors when the content has errors
 */
export async function printPaper(options: PrintOptions): Promise<Uint8Array> {
  const { content, home, now, load, classId, paper, size, browser: executablePath, signal } = options;
  return withScratchFolder('papers', async (scratch) => {
    const out = join(scratch, 'site');
    await buildSite({ content, out, home, now, load, signal, footage: 'none' });
    signal.throwIfAborted();
    const served = await serveSite({ dir: out });
    const browser = await launchChromium(executablePath);
    const stop = () => void browser.close();
    signal.addEventListener('abort', stop, { once: true });
    try {
      const page = await browser.newPage();
      await page.goto(`${served.address}classes/${classId}/${paper}/`, { waitUntil: 'load' });
      if (size !== undefined) await page.evaluate(laterRule(`@page { size: ${size}; }`));
      await page.evaluate('document.fonts.ready');
      return await page.pdf({ preferCSSPageSize: true, printBackground: true, tagged: true, outline: true });
    } finally {
      signal.removeEventListener('abort', stop);
      await browser.close();
      await served.close();
    }
  });
}

/** The page names the shop's paper; a later rule of the same weight wins. An element for it the page's policy forbids. */
function laterRule(rule: string): string {
  return `{
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(${JSON.stringify(rule)});
    document.adoptedStyleSheets.push(sheet);
  }`;
}
