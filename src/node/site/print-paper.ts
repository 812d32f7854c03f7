import { join } from 'node:path';
import { isoDay } from '../../core/time/index.ts';
import { type LoadedShop, withScratchFolder } from '../files/index.ts';
import { launchChromium } from '../programs/index.ts';
import { buildSite } from './build-site.ts';
import { draftShop } from './draft-shop.ts';
import { openToPrint, pdfOf, readFromFolder } from './site-in-browser.ts';

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
  readonly paper: string;
  /** Paper to print on; the shop's own when left out. */
  readonly size?: 'A4' | 'letter';
  /** Absolute path of a Chromium. */
  readonly browser: string;
  readonly signal: AbortSignal;
}

/** Papers that show no value of the spec table: they are printed as drafts from a content with errors. */
const DRAFTS: ReadonlySet<string> = new Set(['run-sheet', 'kit-list']);

export interface Printed {
  readonly pdf: Uint8Array;
  /** What is open in a draft, a line each; none of a paper that is whole. */
  readonly open: readonly string[];
}

/**
 * A paper of a class as PDF, on the size of paper asked for, or the shop's own: the page of the site as Chromium prints it.
 * The site is built, without its footage, into a folder that is gone afterwards; links lead to the published site.
 *
 * A run sheet and a kit list need no other lesson's soundness: from a content with errors they are printed as drafts,
 * with what is open in what this class touches.
 *
 * @throws ContentErrors when the content has errors and the paper shows values
 */
export async function printPaper(options: PrintOptions): Promise<Printed> {
  const { content, home, now, load, classId, paper, size, browser: executablePath, signal } = options;
  return withScratchFolder('papers', async (scratch) => {
    const out = join(scratch, 'site');
    const loaded = await load();
    const shopClass = loaded.shop.classes.find(({ id }) => id === classId);
    const draft = shopClass && DRAFTS.has(paper) ? draftShop(loaded, shopClass, isoDay(now())) : undefined;
    const open = draft?.findings ?? [];
    await buildSite({
      ...{ content, out, home, now, signal, footage: 'none' },
      ...(draft ? { load: async () => draft.loaded, draft: true } : { load }),
    });
    signal.throwIfAborted();
    const published = loaded.shop.info.site;
    const from = { site: out, ...(published && { published }) };
    const browser = await launchChromium(executablePath);
    const stop = () => void browser.close();
    signal.addEventListener('abort', stop, { once: true });
    try {
      const page = await browser.newPage();
      await readFromFolder(page, from);
      await openToPrint(page, `classes/${classId}/${paper}/`, from);
      if (size !== undefined) await page.evaluate(laterRule(`@page { size: ${size}; }`));
      if (open.length > 0) await page.evaluate(markDraft, open);
      return { pdf: await pdfOf(page), open };
    } finally {
      signal.removeEventListener('abort', stop);
      await browser.close();
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

/** Runs in the page: says above everything else that it is a draft, and why. */
function markDraft(open: readonly string[]): void {
  const { document } = globalThis as unknown as { document: DraftDocument };
  const section = document.createElement('section');
  section.className = 'sheet misfit';
  const head = document.createElement('h2');
  head.textContent = `Draft: ${open.length === 1 ? 'one finding is' : `${open.length} findings are`} open`;
  const list = document.createElement('ul');
  for (const finding of open) {
    const line = document.createElement('li');
    line.textContent = finding;
    list.append(line);
  }
  section.append(head, list);
  document.querySelector('.papers')?.after(section);
}

/** As much of a document as that needs. */
interface DraftDocument {
  createElement(name: string): DraftElement;
  querySelector(selector: string): DraftElement | null;
}
interface DraftElement {
  className: string;
  textContent: string | null;
  append(...nodes: readonly DraftElement[]): void;
  after(node: DraftElement): void;
}
