import { execFile } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { promisify } from 'node:util';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import jsQR from 'jsqr';
import { PNG } from 'pngjs';
import { openToPrint, pdfOf, readFromFolder } from '../../src/node/site/index.ts';
import { BASE } from '../support/serve-demo.ts';

const run = promisify(execFile);
const CLASS = 'classes/chain-saturday';
const PAPERS = ['run-sheet', 'kit-list', 'handout', 'job-breakdown'];

async function open(page: Page, paper: string): Promise<void> {
  await page.goto(`${process.env.LIFTSIDE_TEST_ADDRESS}${CLASS}/${paper}/`);
}

test('every QR code of a handout leads where its link does, to the chapter at its time', async ({ page }) => {
  await open(page, 'handout');
  const codes = page.locator('a.qr');
  const count = await codes.count();
  expect(count).toBeGreaterThan(3);
  for (let i = 0; i < count; i++) {
    const code = codes.nth(i);
    // Decoded by a library that shares nothing with the one that drew it.
    const png = PNG.sync.read(await code.locator('svg').screenshot({ scale: 'device' }));
    const read = jsQR(new Uint8ClampedArray(png.data), png.width, png.height);
    const to = await code.getAttribute('href');
    expect(read?.data).toBe(to);
    const site = `https://millrace.example${BASE}`;
    expect(to?.startsWith(site)).toBe(true);
    expect(to?.slice(site.length)).toMatch(/^lessons\/[a-z-]+\/#t=\d+$/);
  }
});

test('the run sheet, its picture and its table say the same, in order', async ({ page }) => {
  await open(page, 'run-sheet');
  const starts = await page.locator('.run-sheet tbody .start').allTextContents();
  const times = starts.map((text) => /\d\d:\d\d/.exec(text)?.[0] ?? '');
  expect(times.length).toBeGreaterThan(8);
  expect(times).toEqual(times.toSorted());
  expect(times[0]).toBe('10:00');
  await expect(page.locator('.class-line svg.wide')).toHaveAttribute(
    'aria-label',
    new RegExp(`^${times.length} blocks from 10:00`),
  );
  expect(await page.locator('.class-line .wide .bar').count()).toBe(times.length);
  // Nothing is crossed by the mark of the end, no letter leaves its block, and each block has its name.
  const drawn = await page.locator('.class-line .wide').evaluate((svg) => {
    const boxes = (selector: string) =>
      [...svg.querySelectorAll<SVGGraphicsElement>(selector)].map((e) => e.getBoundingClientRect());
    const over = (a: DOMRect, b: DOMRect) =>
      a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
    const [end] = boxes('.slot-end');
    const bars = [...svg.querySelectorAll('g:has(> .bar)')].map((group) => ({
      bar: group.querySelector('.bar')?.getBoundingClientRect(),
      names: [...group.querySelectorAll('.name')].map((name) => name.getBoundingClientRect()),
    }));
    return {
      crossed: boxes('text').filter((box) => end && over(box, end)).length,
      unnamed: bars.filter(({ names }) => names.length === 0).length,
      outside: bars.flatMap(({ bar, names }) =>
        names.filter(
          (n) =>
            bar &&
            (n.left < bar.left - 2 || n.right > bar.right + 2 || n.top < bar.top - 2 || n.bottom > bar.bottom + 2),
        ),
      ).length,
    };
  });
  expect(drawn).toEqual({ crossed: 0, unnamed: 0, outside: 0 });
});

for (const paper of PAPERS)
  test(`${paper}: no barrier found, nothing wider than a phone`, { tag: '@long' }, async ({ page }) => {
    await open(page, paper);
    const found = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze();
    expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    await page.setViewportSize({ width: 390, height: 800 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  });

/** The words of each page of a PDF, white space folded; told by poppler, not by the browser that printed it. */
async function pagesOf(page: Page, file: string): Promise<string[]> {
  await writeFile(
    file,
    await page.pdf({ preferCSSPageSize: true, printBackground: true, tagged: true, outline: true }),
  );
  const { stdout } = await run('pdftotext', ['-raw', file, '-']);
  return stdout
    .split('\f')
    .filter((text) => text.trim() !== '')
    .map(folded);
}

const folded = (text: string) => text.replace(/\s+/g, '');

for (const { paper, row } of [
  { paper: 'run-sheet', row: '.run-sheet tbody tr' },
  { paper: 'job-breakdown', row: '.breakdown tbody' },
  { paper: 'handout', row: '.handout-steps > li' },
  { paper: 'kit-list', row: '.kit-groups li, .lay-out' },
])
  test(`${paper}: on paper no row is broken across pages`, async ({ page }, info) => {
    const poppler = await run('pdftotext', ['-v']).then(
      () => true,
      () => false,
    );
    test.skip(!poppler, 'pdftotext (poppler-utils) is not installed');
    await open(page, paper);
    const rows = await page
      .locator(row)
      .evaluateAll((elements) =>
        elements.map((element) =>
          [...element.querySelectorAll('th, td, .text, .spec-note, p, .details')].map(
            (e) => (e as HTMLElement).innerText,
          ),
        ),
      );
    const pages = await pagesOf(page, info.outputPath(`${paper}.pdf`));
    expect(pages.length).toBeGreaterThan(0);
    const whole = pages.join('');
    for (const texts of rows) {
      // The first and the last words of each part of a row, as far as the PDF has them in one run.
      const words = texts.map(folded).filter((text) => text.length > 8 && whole.includes(text));
      const on = (text: string) => pages.flatMap((content, index) => (content.includes(text) ? [index] : []));
      const shared = words.map(on).reduce(
        (all, some) => all.filter((index) => some.includes(index)),
        pages.map((_, i) => i),
      );
      if (words.length > 0) expect(shared, words.join(' | ')).not.toEqual([]);
    }
  });

/** Where the links of a PDF lead (ISO 32000-1, 12.6.4.7, URI actions), as its own bytes say. */
function linksIn(pdf: Uint8Array): string[] {
  return [
    ...Buffer.from(pdf)
      .toString('latin1')
      .matchAll(/\/URI \(([^)]*)\)/g),
  ].map(([, to = '']) => to);
}

test('links of a printed paper lead to the published site, or nowhere, never to the machine that printed it', async ({
  page,
}) => {
  test.skip(BASE !== '/', 'papers are printed from a site built for the root');
  const site = process.env.LIFTSIDE_TEST_SITE ?? '';
  const paper = `${CLASS}/handout/`;
  await readFromFolder(page, { site });
  await openToPrint(page, paper, { site, published: 'https://millrace.example/' });
  const links = linksIn(await pdfOf(page));
  expect(links).toContain('https://millrace.example/lessons/chain/#t=322');
  expect(links.filter((to) => !/^(?:https:\/\/millrace\.example\/|mailto:)/.test(to))).toEqual([]);
  await openToPrint(page, paper, { site });
  // Codes and addresses that the content itself writes out stay.
  expect(linksIn(await pdfOf(page)).filter((to) => !/^(?:https:\/\/millrace\.example\/|mailto:)/.test(to))).toEqual([]);
});

test('papers come on the size that the shop prints on', async ({ page }, info) => {
  const poppler = await run('pdfinfo', ['-v']).then(
    () => true,
    () => false,
  );
  test.skip(!poppler, 'pdfinfo (poppler-utils) is not installed');
  await open(page, 'kit-list');
  const file = info.outputPath('kit-list.pdf');
  const print = async () => {
    await writeFile(file, await page.pdf({ preferCSSPageSize: true }));
    return (await run('pdfinfo', [file])).stdout;
  };
  // ISO 216: 210 mm × 297 mm.
  expect(await print()).toMatch(/Page size: +59[45][\d.]* x 84[12][\d.]* pts/);
  // ANSI/ASME Y14.1 size A, "Letter": 8.5 in × 11 in.
  await page.evaluate(() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync('@page { size: Letter; }');
    document.adoptedStyleSheets.push(sheet);
  });
  expect(await print()).toMatch(/Page size: +612 x 792 pts/);
});

/** Words that stand on each paper of the day, as poppler reads them; white space folded. */
const ON_PAPER: Readonly<Record<string, readonly string[]>> = {
  'door-sign': ['10:00–12:00', 'Chain and sprockets on a Saturday', 'bay 1 and the long bench'],
  invitation: ['invites you', 'there is room for 14', 'Closed shoes with a firm toe', 'millrace.example'],
  'sign-in': ['Name', 'To reach me, if you like', '17'],
  briefing: ['Signature', 'WARNING:', 'Nobody has to do a step', 'Reckoned for 12'],
  'name-tags': ['Millrace Community Garage'],
  feedback: ['The question I take home', 'No name needed'],
  questions: ['Nothing was set aside'],
};

for (const size of ['A4', 'letter'] as const)
  test(`papers of the day on ${size}: what they say is on them, whole, and no barrier is found @long`, async ({
    page,
  }, info) => {
    for (const [paper, words] of Object.entries(ON_PAPER)) {
      await open(page, paper);
      if (size === 'A4') {
        const found = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze();
        expect(found.violations.map(({ id, nodes }) => `${paper}: ${id}: ${nodes[0]?.html}`)).toEqual([]);
        await page.setViewportSize({ width: 390, height: 800 });
        expect(await page.evaluate(() => document.documentElement.scrollWidth), paper).toBeLessThanOrEqual(390);
        await page.setViewportSize({ width: 1280, height: 800 });
      }
      await page.evaluate((rule) => {
        const sheet = new CSSStyleSheet();
        sheet.replaceSync(rule);
        document.adoptedStyleSheets.push(sheet);
      }, `@page { size: ${size}; }`);
      const file = info.outputPath(`${paper}-${size}.pdf`);
      const pages = await pagesOf(page, file);
      const text = pages.join('');
      for (const word of words) expect(text, `${paper} on ${size}`).toContain(folded(word));
      // ISO 216 A4 is 595 × 842 pt, Letter (ANSI/ASME Y14.1 size A) 612 × 792.
      const { stdout } = await run('pdfinfo', [file]);
      expect(stdout).toMatch(size === 'A4' ? /Page size: +59[45][\d.]* x 84[12]/ : /Page size: +612 x 792/);
      // One sheet where one is enough: a sign, an invitation.
      if (paper === 'door-sign' || paper === 'invitation') expect(pages, paper).toHaveLength(1);
    }
  });
