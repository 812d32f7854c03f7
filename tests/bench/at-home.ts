// npx node tests/bench/at-home.ts [--no-lighthouse] [--base /garage/site/]
// What an attendee waits for on an old phone: the processor four times slower than this machine, 1.6 Mbit/s, 150 ms to
// the server. First paint, Play to motion and layout shift of front page, lesson and step index; what the time from a
// press to motion goes to, for Play and for a step in the middle, of the rendered programme, as sites play it, and of
// the uncut camera files; then Lighthouse's scores (mobile, its own simulated network), run by npx and no part of the
// project. The programme is rendered first, which takes minutes. Figures mean something only on a machine that does
// nothing else: the load beside them says so.

import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs, promisify } from 'node:util';
import type { CDPSession, Page } from 'playwright-core';
import { findChromium } from '../../src/node/programs/index.ts';
import { buildSite, serveSite } from '../../src/node/site/index.ts';
import { openBrowser } from '../support/open-browser.ts';
import { copyDemo, discard } from '../support/start-room.ts';

const { values } = parseArgs({ options: { 'no-lighthouse': { type: 'boolean' }, base: { type: 'string' } } });
const home = resolve(import.meta.dirname, '../..');
const base = values.base ?? '/';
const LIGHTHOUSE = 'lighthouse@13.5.0';
const PAGES = { 'front page': '', lesson: 'lessons/chain/', 'step index': 'steps/' } as const;
const SLOWER = 4;
const NETWORK = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 0.75e6 / 8 };
const TIMES = 3;
/** As Lighthouse advises for a figure that varies, the middle one of five (its docs/variability.md). */
const AUDITS = 5;
/** A step in the middle of the lesson. */
const STEP = 'read-the-teeth';

const scratch = await mkdtemp(join(tmpdir(), 'liftside-figures-'));
const content = await copyDemo();
await promisify(execFile)(process.execPath, [
  join(home, 'src/node/cli/liftside.mjs'),
  ...['render', 'chain', '--content', content],
]);
const build = async (footage: 'rendered' | 'uncut') => {
  const out = join(scratch, footage);
  const wishes = { content, out, home, base, env: process.env, now: () => new Date() };
  await buildSite({ ...wishes, footage: footage === 'uncut' ? 'camera files' : footage });
  return serveSite({ dir: out, base });
};
const [served, uncut] = [await build('rendered'), await build('uncut')];
const browser = await openBrowser();
const ms = (value: number | undefined, width: number) =>
  (value === undefined ? '' : `${value.toFixed(0)} ms`).padStart(width);
const middle = <T>(of: readonly T[], take: (each: T) => number | undefined) =>
  of.map(take).toSorted((a, b) => (a ?? 0) - (b ?? 0))[Math.floor(of.length / 2)];
const load = () => loadavg()[0]?.toFixed(1);

console.log(`load ${load()}; processor ÷ ${SLOWER}, 1.6 Mbit/s, 150 ms, middle of ${TIMES}`);
console.log('page          first paint   largest paint   layout shift   Play to motion');
for (const [name, path] of Object.entries(PAGES)) {
  const figures: Figures[] = [];
  for (let i = 0; i < TIMES; i++) figures.push(await look(path));
  console.log(
    name.padEnd(13),
    ms(
      middle(figures, ({ first }) => first),
      11,
    ),
    ms(
      middle(figures, ({ largest }) => largest),
      15,
    ),
    (middle(figures, ({ shift }) => shift) ?? 0).toFixed(3).padStart(14),
    ms(
      middle(figures, ({ motion }) => motion),
      16,
    ),
  );
}
console.log(
  `\nload ${load()}; from the press on     asked   answered   its index   a picture   motion   film till then   controls   shift`,
);
for (const [kind, { address }] of [
  ['rendered', served],
  ['uncut', uncut],
] as const)
  for (const [what, pressed] of [
    ['Play', '.start'],
    ['a step', `a[data-part="${STEP}"]`],
  ] as const) {
    const presses: Press[] = [];
    for (let i = 0; i < TIMES; i++) presses.push(await press(address, pressed));
    const of = (take: (each: Press) => number | undefined, width: number) => ms(middle(presses, take), width);
    console.log(
      `${kind}, ${what}`.padEnd(30),
      of((each) => each.asked, 7),
      of((each) => each.answered, 10),
      of((each) => each.index, 11),
      of((each) => each.picture, 11),
      of((each) => each.motion, 8),
      `${((middle(presses, ({ bytes }) => bytes) ?? 0) / 1000).toFixed(0)} kB`.padStart(16),
      of((each) => each.controls, 10),
      (middle(presses, ({ shift }) => shift) ?? 0).toFixed(3).padStart(7),
    );
  }
await browser.close();
if (!values['no-lighthouse']) await lighthouse();
for (const each of [served, uncut]) await each.close();
await rm(scratch, { recursive: true, force: true });
await discard(content);

interface Figures {
  readonly first: number;
  readonly largest: number;
  readonly shift: number;
  readonly motion?: number;
}

/** Opens a page afresh, on a phone's screen. */
async function onPhone(address: string): Promise<{ page: Page; devtools: CDPSession; close: () => Promise<void> }> {
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
  await page.goto(address, { waitUntil: 'load' });
  return { page, devtools, close: () => context.close() };
}

/** What is seen of a page, and of its film where it has one. ms */
async function look(path: string): Promise<Figures> {
  const { page, close } = await onPhone(served.address + path);
  const paint = await painted(page);
  const plays = (await page.locator('.start').count()) > 0;
  await close();
  return { ...paint, ...(plays && { motion: (await press(served.address, '.start')).motion }) };
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

/** From a press on, ms. */
interface Press {
  /** The film was first asked for, and the answer began. */
  readonly asked: number | undefined;
  readonly answered: number | undefined;
  /** Length and size of the film on air are known; its first picture is there; its second is on screen. */
  readonly index: number | undefined;
  readonly picture: number | undefined;
  readonly motion: number;
  /** Bytes of films that had come by then. */
  readonly bytes: number;
  /** The player's controls are there. */
  readonly controls: number;
  /** Layout shift later than half a second after the press: until then it is an answer to it (Layout Instability). */
  readonly shift: number;
}

/** Opens the lesson afresh and presses something of it. */
async function press(address: string, pressed: string): Promise<Press> {
  const { page, devtools, close } = await onPhone(address + PAGES.lesson);
  const films = new Set<string>();
  const network = { asked: 0, answered: 0, bytes: 0 };
  devtools.on('Network.requestWillBeSent', ({ requestId, request, timestamp }) => {
    if (!request.url.includes('/footage/') || !/\.mp4/.test(request.url)) return;
    films.add(requestId);
    network.asked ||= timestamp * 1000;
  });
  devtools.on('Network.responseReceived', ({ requestId, timestamp }) => {
    if (films.has(requestId)) network.answered ||= timestamp * 1000;
  });
  let moved = false;
  devtools.on('Network.dataReceived', ({ requestId, dataLength }) => {
    if (films.has(requestId) && !moved) network.bytes += dataLength;
  });
  await page.locator('lesson-player.ready').waitFor();
  // The clock of the network's reports, at the page's own zero.
  const { metrics } = await devtools.send('Performance.enable').then(() => devtools.send('Performance.getMetrics'));
  const zero =
    (metrics.find(({ name }) => name === 'Timestamp')?.value ?? 0) * 1000 -
    ((await page.evaluate('performance.now()')) as number);
  const seen = await page.evaluate(async (selector) => {
    const pressed = performance.now();
    const at: { index?: number; picture?: number } = {};
    for (const [type, name] of [
      ['loadedmetadata', 'index'],
      ['loadeddata', 'picture'],
    ] as const)
      document.addEventListener(
        type,
        ({ target }) => {
          if (target instanceof HTMLVideoElement) at[name] ??= performance.now() - pressed;
        },
        { capture: true },
      );
    document.querySelector<HTMLElement>(selector)?.click();
    for (let moved = false; !moved; ) {
      await new Promise((next) => requestAnimationFrame(next));
      const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
      moved = video !== null && !video.paused && video.getVideoPlaybackQuality().totalVideoFrames > 1;
    }
    return { pressed, motion: performance.now() - pressed, ...at };
  }, pressed);
  moved = true;
  await page.locator('lesson-player.open').waitFor();
  const after = await page.evaluate(async (since) => {
    const controls = performance.now() - since;
    let shift = 0;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & { value: number })[])
        if (entry.startTime >= since + 500) shift += entry.value;
    }).observe({ type: 'layout-shift', buffered: true });
    await new Promise((done) => setTimeout(done, 500));
    return { controls, shift };
  }, seen.pressed);
  await close();
  const since = (time: number) => (time === 0 ? undefined : time - zero - seen.pressed);
  return {
    ...{ asked: since(network.asked), answered: since(network.answered), bytes: network.bytes },
    ...{ index: seen.index, picture: seen.picture, motion: seen.motion, ...after },
  };
}

interface Audit {
  /** 0 to 1; null for what is only told. */
  readonly score: number | null;
  readonly title: string;
}

/**
 * In the browser's shell without windows, where it is installed: the drawing of a window round the page, which no phone
 * has, takes as long as the page itself on two cores.
 */
async function lighthouse(): Promise<void> {
  const whole = await findChromium(process.env);
  const shell = whole && `${whole}-headless-shell`;
  const chromium = shell && existsSync(shell) ? shell : whole;
  console.log(`\nLighthouse, mobile, ${chromium}`);
  console.log('                     performance   accessibility   best practices   search engines');
  for (const [name, path] of Object.entries(PAGES)) {
    const performance: number[] = [];
    for (let round = 1; round <= AUDITS; round++) performance.push(await audit(name, path, chromium));
    const usual = middle(performance, (score) => score);
    console.log(`middle of ${AUDITS}`.padEnd(20), String(usual).padStart(11));
  }
}

async function audit(name: string, path: string, chromium: string | undefined): Promise<number> {
  const report = join(scratch, 'report.json');
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
  return score('performance');
}
