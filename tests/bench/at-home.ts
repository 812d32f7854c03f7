// npx node tests/bench/at-home.ts [--no-lighthouse] [--base /garage/site/]
// What an attendee waits for on an old phone: the processor four times slower than this machine, 1.6 Mbit/s, 150 ms to
// the server. First paint, Play to motion and layout shift of front page, lesson and step index; then Lighthouse's
// scores (mobile, its own simulated network), run by npx and no part of the project. Figures mean something only on a
// machine that does nothing else: the load beside them says so.

import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs, promisify } from 'node:util';
import type { Page } from 'playwright-core';
import { findChromium } from '../../src/node/programs/index.ts';
import { buildSite, serveSite } from '../../src/node/site/index.ts';
import { openBrowser } from '../support/open-browser.ts';

const { values } = parseArgs({ options: { 'no-lighthouse': { type: 'boolean' }, base: { type: 'string' } } });
const home = resolve(import.meta.dirname, '../..');
const base = values.base ?? '/';
const LIGHTHOUSE = 'lighthouse@13.5.0';
const PAGES = { 'front page': '', lesson: 'lessons/chain/', 'step index': 'steps/' } as const;
const SLOWER = 4;
const NETWORK = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 0.75e6 / 8 };
const TIMES = 3;

const out = await mkdtemp(join(tmpdir(), 'liftside-figures-'));
const content = join(home, 'content');
await buildSite({ content, out, home, base, footage: 'uncut', env: process.env, now: () => new Date() });
const served = await serveSite({ dir: out, base });
const browser = await openBrowser();
console.log(`load ${loadavg()[0]?.toFixed(1)}; processor ÷ ${SLOWER}, 1.6 Mbit/s, 150 ms, middle of ${TIMES}`);
console.log('page          first paint   largest paint   layout shift   Play to motion');
for (const [name, path] of Object.entries(PAGES)) {
  const figures: Figures[] = [];
  for (let i = 0; i < TIMES; i++) figures.push(await look(path));
  const middle = (of: (each: Figures) => number | undefined) =>
    figures.map(of).toSorted((a, b) => (a ?? 0) - (b ?? 0))[Math.floor(TIMES / 2)];
  const ms = (value: number | undefined, width: number) =>
    (value === undefined ? '' : `${value.toFixed(0)} ms`).padStart(width);
  console.log(
    name.padEnd(13),
    ms(
      middle(({ first }) => first),
      11,
    ),
    ms(
      middle(({ largest }) => largest),
      15,
    ),
    (middle(({ shift }) => shift) ?? 0).toFixed(3).padStart(14),
    ms(
      middle(({ motion }) => motion),
      16,
    ),
  );
}
await browser.close();
if (!values['no-lighthouse']) await lighthouse();
await served.close();
await rm(out, { recursive: true, force: true });

interface Figures {
  readonly first: number;
  readonly largest: number;
  readonly shift: number;
  readonly motion?: number;
}

/** Opens a page afresh, on a phone's screen, and plays it where it plays. ms */
async function look(path: string): Promise<Figures> {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    deviceScaleFactor: 2,
    isMobile: true,
  });
  const page = await context.newPage();
  const devtools = await context.newCDPSession(page);
  await devtools.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  await devtools.send('Network.enable');
  await devtools.send('Network.emulateNetworkConditions', NETWORK);
  await page.goto(served.address + path, { waitUntil: 'load' });
  const paint = await painted(page);
  const motion = (await page.locator('.start').count()) > 0 ? await playToMotion(page) : undefined;
  await context.close();
  return { ...paint, ...(motion !== undefined && { motion }) };
}

async function painted(page: Page): Promise<Omit<Figures, 'motion'>> {
  return page.evaluate(async () => {
    const seen = { first: 0, largest: 0, shift: 0 };
    const watch = (
      type: string,
      take: (entry: PerformanceEntry & { value?: number; hadRecentInput?: boolean }) => void,
    ) => new PerformanceObserver((list) => list.getEntries().forEach(take)).observe({ type, buffered: true });
    watch('paint', (entry) => {
      if (entry.name === 'first-contentful-paint') seen.first = entry.startTime;
    });
    watch('largest-contentful-paint', (entry) => {
      seen.largest = entry.startTime;
    });
    watch('layout-shift', (entry) => {
      if (!entry.hadRecentInput) seen.shift += entry.value ?? 0;
    });
    await new Promise((done) => setTimeout(done, 1500));
    return seen;
  });
}

/** From the press on Play to the second frame on screen, ms. */
async function playToMotion(page: Page): Promise<number> {
  await page.locator('lesson-player.ready').waitFor();
  return page.evaluate(async () => {
    const pressed = performance.now();
    document.querySelector<HTMLElement>('.start')?.click();
    for (let moved = false; !moved; ) {
      await new Promise((next) => requestAnimationFrame(next));
      const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
      moved = video !== null && !video.paused && video.getVideoPlaybackQuality().totalVideoFrames > 1;
    }
    return performance.now() - pressed;
  });
}

interface Audit {
  /** 0 to 1; null for what is only told. */
  readonly score: number | null;
  readonly title: string;
}

async function lighthouse(): Promise<void> {
  const chromium = await findChromium(process.env);
  console.log('\nLighthouse, mobile   performance   accessibility   best practices   search engines');
  for (const [name, path] of Object.entries(PAGES)) {
    const report = join(out, 'report.json');
    await promisify(execFile)(
      'npx',
      [
        ...['--yes', LIGHTHOUSE, served.address + path, '--quiet', '--output=json', `--output-path=${report}`],
        '--chrome-flags=--headless=new --no-sandbox --disable-gpu',
      ],
      { env: { ...process.env, ...(chromium && { CHROME_PATH: chromium }) }, maxBuffer: 1 << 26 },
    );
    const { categories, audits } = JSON.parse(await readFile(report, 'utf8'));
    const score = (id: string) => Math.round((categories[id]?.score ?? 0) * 100);
    console.log(
      name.padEnd(20),
      String(score('performance')).padStart(11),
      String(score('accessibility')).padStart(15),
      String(score('best-practices')).padStart(16),
      String(score('seo')).padStart(16),
    );
    for (const [id, audit] of Object.entries<Audit>(audits))
      if (audit.score !== null && audit.score < 0.9) console.log(`    ${id}: ${audit.title} (${audit.score})`);
  }
}
