import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { PNG } from 'pngjs';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { frameAt } from '../../src/core/time/index.ts';
import { onPath } from '../../src/node/programs/index.ts';
import { buildSite, serveSite } from '../../src/node/site/index.ts';
import { readFrameStrip } from '../support/frame-strip.ts';
import { demoTimes } from '../support/lesson-page.ts';

// npm run firefox: a second browser, driven by its own open protocol (W3C, WebDriver BiDi).

const home = resolve(import.meta.dirname, '../..');
const executablePath = await onPath(['firefox-esr', 'firefox'], process.env);
const WAIT = { timeout: 300_000 };

let out: string;
let served: Awaited<ReturnType<typeof serveSite>>;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  if (executablePath === undefined) throw new Error('Firefox is not installed: apt-get install firefox-esr');
  out = await mkdtemp(join(tmpdir(), 'liftside-firefox-'));
  await buildSite({
    ...{ content: join(home, 'content'), out, home, footage: 'uncut', env: process.env },
    now: () => new Date(),
  });
  served = await serveSite({ dir: out });
  browser = await puppeteer.launch({
    ...{ browser: 'firefox', executablePath, headless: true, protocolTimeout: 600_000 },
    extraPrefsFirefox: { 'media.autoplay.default': 0 },
  });
  page = await browser.newPage();
  await page.setViewport({ width: 1280, height: 800 });
});
afterAll(async () => {
  await browser?.close();
  await served?.close();
  await rm(out, { recursive: true, force: true });
});

/** The number of the recording's frame that is on screen, read off the picture. */
async function frameSeen(): Promise<number | undefined> {
  const picture = await page.evaluate(() => {
    const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
    if (!video || video.readyState < 2 || video.seeking) return '';
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [video.videoWidth, video.videoHeight];
    canvas.getContext('2d')?.drawImage(video, 0, 0);
    return canvas.toDataURL('image/png');
  });
  const bytes = Buffer.from(picture.split(',')[1] ?? '', 'base64');
  return bytes.length > 0 ? readFrameStrip(PNG.sync.read(bytes)) : undefined;
}

test('a step plays from its cue', async () => {
  const { recording, chapters } = await demoTimes('chain');
  const { step, recording: span } = chapters
    .flatMap(({ steps }) => steps)
    .find((each) => each.step.id === 'read-the-teeth')!;
  await page.goto(`${served.address}lessons/chain/`);
  await page.waitForSelector('lesson-player.ready', WAIT);
  await page.click(`a[data-part="${step.id}"]`);
  await page.waitForFunction(
    () => (document.querySelector<HTMLVideoElement>('video[data-on-air]')?.paused ?? true) === false,
    WAIT,
  );
  const [first, end] = [frameAt(span.start, recording.rate!), frameAt(span.end, recording.rate!)];
  const seen = await expect
    .poll(frameSeen, WAIT)
    .toBeDefined()
    .then(() => frameSeen());
  expect(seen).toBeGreaterThanOrEqual(first - 1);
  expect(seen).toBeLessThan(end);
  // It goes on: a later frame is seen after it.
  await expect.poll(frameSeen, WAIT).toBeGreaterThan(seen ?? end);
});

test('a search shows the value and leads to the step', async () => {
  await page.goto(`${served.address}steps/?q=rear+axle+nut`);
  await page.waitForSelector('.results li', WAIT);
  const text = await page.$eval('.results', (list) => (list as HTMLElement).innerText);
  expect(text).toContain('Rear axle nut');
  expect(text).toContain('98 ± 5 N·m');
  const address = await page.$eval('.results a[href*="lessons/"]', (link) => (link as HTMLAnchorElement).href);
  expect(address).toContain('?play=');
});

test('a lesson is printed whole, on few sheets', async () => {
  await page.goto(`${served.address}lessons/chain/`);
  await page.waitForSelector('lesson-player.ready', WAIT);
  const file = join(out, 'lesson.pdf');
  await writeFile(file, await page.pdf({ preferCSSPageSize: true, timeout: 600_000 }));
  const { stdout } = await promisify(execFile)('pdftotext', ['-layout', file, '-']);
  const text = stdout.replaceAll(/\s+/g, ' ');
  // Bold letters are drawn as outlines by its printer: they are on the paper and not in the text of the file.
  for (const words of [
    'The manufacturer’s service manual for the exact model and year decides',
    'Judge a worn chain, take the rear wheel out',
    'Write date, distance and the names of the two who checked on the card',
  ])
    expect(text).toContain(words);
  const sheets = stdout.split('\f').filter((sheet) => sheet.trim() !== '');
  expect(sheets.length).toBeLessThanOrEqual(6);
});

/** What is on air, and how far it is. */
const onAir = () =>
  page.evaluate(() => {
    const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
    return { at: video?.currentTime ?? 0, playing: video?.paused === false };
  });
const innerText = (selector: string) =>
  page.$$eval(selector, ([first]) => (first as HTMLElement | undefined)?.innerText ?? '');

// The last one: the site is gone afterwards.
test('a kept lesson opens and plays when the site is gone; search says that it needs the network', async () => {
  await page.goto(`${served.address}lessons/chain/`);
  await page.waitForSelector('lesson-player.ready', WAIT);
  await page.$eval('keep-lesson summary', (summary) => {
    summary.scrollIntoView({ block: 'center' });
    (summary as HTMLElement).click();
  });
  await expect.poll(() => innerText('keep-lesson [data-words]'), WAIT).toMatch(/values and corrections: \d+ MB\.$/);
  await page.$eval('keep-lesson [data-keep]', (key) => (key as HTMLElement).click());
  await expect.poll(() => innerText('keep-lesson [data-words]'), WAIT).toContain('it opens here without a network');
  await served.close();
  await page.goto(`${served.address}lessons/chain/`);
  await expect.poll(() => innerText('.kept-note'), WAIT).toMatch(/^Your copy of .+\d{4}\. Values looked up/);
  await page.waitForSelector('lesson-player.ready', WAIT);
  await page.click('.start');
  await expect.poll(onAir, WAIT).toMatchObject({ playing: true });
  const { at } = await onAir();
  await expect.poll(async () => (await onAir()).at, WAIT).toBeGreaterThan(at + 0.5);
  await page.goto(`${served.address}steps/?q=axle+nut`);
  await expect.poll(() => innerText('[data-search]'), WAIT).toContain('needs the network');
  expect(await innerText('.kept-list')).toContain('Replace the chain and sprockets');
});
