import { PACKAGE_FOLDERS } from '../../core/pack/index.ts';
import { launchChromium } from '../programs/index.ts';
import { openToPrint, pdfOf, readFromFolder, type SiteInBrowser } from '../site/index.ts';
import { entryOf, type PackEntry } from './entry.ts';

/** A page of the site that is printed into the package. */
export interface Paper {
  readonly title: string;
  /** Of the page, in the site. */
  readonly page: string;
  /** Of the PDF file, without its folder. */
  readonly name: string;
}

interface Printing extends SiteInBrowser {
  /** Absolute path of a Chromium. */
  readonly browser: string;
  readonly signal: AbortSignal;
}

/** Pages of a built site as PDF, the same bytes from the same pages. */
export async function printPapers(papers: readonly Paper[], options: Printing): Promise<PackEntry[]> {
  const { browser, signal } = options;
  const chromium = await launchChromium(browser);
  const stop = () => void chromium.close();
  signal.addEventListener('abort', stop, { once: true });
  try {
    const printed: PackEntry[] = [];
    const page = await chromium.newPage();
    await readFromFolder(page, options);
    for (const { page: path, name } of papers) {
      await openToPrint(page, path, options);
      const pdf = await pdfOf(page);
      printed.push(entryOf(`${PACKAGE_FOLDERS.papers}/${name}`, settledPdf(pdf)));
    }
    return printed;
  } finally {
    signal.removeEventListener('abort', stop);
    await chromium.close();
  }
}

/**
 * A PDF without what changes from one printing to the next: when it was made (ISO 32000-1, 14.3.3), and the numbers
 * that Chromium happens to give the elements of its structure (14.7.2, ID). One date stands for all, and elements are
 * numbered from one in their own order, each at its length, so that every offset in the file stays right.
 */
export function settledPdf(pdf: Uint8Array): Uint8Array {
  const text = Buffer.from(pdf).toString('latin1');
  const numbers = [...new Set([...text.matchAll(ELEMENT)].map(([, number = '']) => number))].toSorted();
  const rank = new Map(numbers.map((number, index) => [number, String(index + 1).padStart(number.length, '0')]));
  const settled = text
    .replace(/(\/(?:CreationDate|ModDate) ?\(D:)\d{14}/g, (_, before: string) => `${before}20000101000000`)
    .replace(ELEMENT, (_, number: string) => `(node${rank.get(number)})`);
  return Buffer.from(settled, 'latin1');
}

const ELEMENT = /\(node(\d{8})\)/g;
