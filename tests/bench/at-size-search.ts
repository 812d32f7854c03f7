/**
 * What a search over a library of many lessons takes, on the page of its step index in Chromium:
 *
 *     npx node tests/bench/at-size-search.ts [lessons, 1000 when left out] [--site DIR, one that is built already]
 *
 * From the last letter typed to the first result on the page, and how much came over the network for it, on a page whose
 * field was pressed before; each time on a page of its own, on which nothing was looked for. Then the same with the
 * processor four times slower.
 */
import { mkdir, mkdtemp, rm } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { buildSite, serveSite } from '../../src/node/site/index.ts';
import { writeLargeLibrary } from '../support/large-library.ts';
import { openBrowser } from '../support/open-browser.ts';

/** Words that stand in all lessons and in half, a beginning, a number, slips, a value, another name, a choice of words. */
const QUERIES = [
  ...['chain', 'tarn', 'brake lever free play', 'ti', 'front brake pads and fluid 7', 'chian slack', 'blead screw'],
  ...['98 Nm', 'axle nut 98 Nm', 'rotor', 'how tight is the rear axle nut', 'clean the caliper and press the pistons'],
] as const;
const TIMES = 3;

const { values, positionals } = parseArgs({ options: { site: { type: 'string' } }, allowPositionals: true });
const scratch = await mkdtemp(join(tmpdir(), 'liftside-search-'));
const lessons = Number(positionals[0] ?? 1000);
const dir = values.site ?? (await built());
const served = await serveSite({ dir });
const browser = await openBrowser();
for (const slower of [1, 4]) {
  console.log(`\nprocessor ÷ ${slower}, load ${loadavg()[0]?.toFixed(1)}, middle of ${TIMES}`);
  console.log('first result   it took   all 40 rows   it took   found   looked for');
  for (const query of QUERIES) {
    const figures: Figures[] = [];
    for (let i = 0; i < TIMES; i++) figures.push(await search(query, slower));
    const middle = (of: (each: Figures) => number) => figures.map(of).toSorted((a, b) => a - b)[TIMES >> 1] ?? 0;
    console.log(
      `${middle(({ first }) => first).toFixed(0)} ms`.padStart(12),
      `${(middle(({ firstBytes }) => firstBytes) / 1000).toFixed(0)} kB`.padStart(9),
      `${middle(({ all }) => all).toFixed(0)} ms`.padStart(13),
      `${(middle(({ allBytes }) => allBytes) / 1000).toFixed(0)} kB`.padStart(9),
      String(figures[0]?.found ?? '').padStart(7),
      ` ${query}`,
    );
  }
}
await browser.close();
await served.close();
await rm(scratch, { recursive: true, force: true });

async function built(): Promise<string> {
  const content = join(scratch, 'content');
  await mkdir(content);
  const steps = await writeLargeLibrary(content, lessons, Math.ceil(lessons / 50));
  console.log(`${lessons} lessons, ${steps} steps`);
  const out = join(scratch, 'site');
  const home = resolve(import.meta.dirname, '../..');
  await buildSite({ content, out, home, now: () => new Date(), footage: 'none' });
  return out;
}

interface Figures {
  /** ms from the last letter on */
  readonly first: number;
  readonly all: number;
  /** over the network till then */
  readonly firstBytes: number;
  readonly allBytes: number;
  readonly found: string;
}

async function search(query: string, slower: number): Promise<Figures> {
  const context = await browser.newContext();
  const page = await context.newPage();
  const devtools = await context.newCDPSession(page);
  await page.goto(`${served.address}steps/`, { waitUntil: 'networkidle' });
  await page.getByRole('searchbox').focus();
  await page.waitForLoadState('networkidle');
  await page.waitForTimeout(500);
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: slower });
  const figures = await page.evaluate(
    (typed) =>
      new Promise<Figures>((done) => {
        const field = document.querySelector<HTMLInputElement>('step-search input[type=search]');
        const results = document.querySelector('.results');
        const status = document.querySelector('.found');
        if (!field || !results || !status) throw new Error('the page has no search');
        const start = performance.now();
        const bytes = () =>
          performance
            .getEntriesByType('resource')
            .filter((entry) => entry instanceof PerformanceResourceTiming && entry.startTime >= start)
            .reduce((sum, entry) => sum + (entry as PerformanceResourceTiming).transferSize, 0);
        let first: { first: number; firstBytes: number } | undefined;
        const seen = () => {
          const now = performance.now() - start;
          first ??= { first: now, firstBytes: bytes() };
          const [found = '0 found'] = /\d+ found/.exec(status.textContent) ?? [];
          if (results.childElementCount < Math.min(40, Number.parseInt(found, 10))) return;
          done({ ...first, all: now, allBytes: bytes(), found: String(Number.parseInt(found, 10)) });
        };
        new MutationObserver(seen).observe(results, { childList: true });
        new MutationObserver(seen).observe(status, { childList: true });
        field.value = typed;
        field.dispatchEvent(new Event('input', { bubbles: true }));
      }),
    query,
  );
  await context.close();
  return figures;
}
