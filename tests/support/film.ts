import { mkdtemp, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Page } from '@playwright/test';
import { execa } from 'execa';
import { openBrowser } from './open-browser.ts';
import { analysedDemo, discard, startRoom } from './start-room.ts';

// npm run film: a minute of Liftside as it is, on the demo, pictures taken by Chromium itself and made small by ffmpeg (libvpx-vp9).

const SIZE = { width: 1280, height: 720 };
/** Frames of the picture a second; pages move little. */
const RATE = 10;
const to = join(resolve(import.meta.dirname, '../..'), 'docs/liftside.webm');

const content = await analysedDemo('front-brake');
const started = await startRoom(content);
const browser = await openBrowser();
const folder = await mkdtemp(join(tmpdir(), 'liftside-film-'));
try {
  const page = await browser.newPage({ viewport: SIZE });
  await cuttingRoom(page);
  const frames = await filming(page, async () => {
    await cut(page);
    await lesson(page);
    await search(page);
    await runSheet(page);
  });
  await writeFile(join(folder, 'frames.txt'), frames);
  await execa('ffmpeg', [
    ...['-v', 'error', '-y', '-f', 'concat', '-i', join(folder, 'frames.txt'), '-an', '-r', String(RATE)],
    ...['-c:v', 'libvpx-vp9', '-crf', '42', '-b:v', '0', '-row-mt', '1', '-deadline', 'good', to],
  ]);
  console.log(`${to}: ${Math.round((await stat(to)).size / 1024)} KiB`);
} finally {
  await browser.close();
  await started.stop();
  await discard(content);
  await rm(folder, { recursive: true, force: true });
}

/**
 * Takes every picture that the browser draws meanwhile, as its own tools hand them out.
 *
 * @returns the pictures with their lengths, as ffmpeg's concat reads them
 */
async function filming(page: Page, act: () => Promise<void>): Promise<string> {
  const tools = await page.context().newCDPSession(page);
  const frames: { readonly file: string; readonly at: number }[] = [];
  const writing: Promise<void>[] = [];
  tools.on('Page.screencastFrame', ({ data, metadata, sessionId }) => {
    const file = `${String(frames.length).padStart(6, '0')}.jpg`;
    frames.push({ file, at: metadata.timestamp ?? Date.now() / 1000 });
    writing.push(writeFile(join(folder, file), Buffer.from(data, 'base64')));
    void tools.send('Page.screencastFrameAck', { sessionId }).catch(() => undefined);
  });
  await tools.send('Page.startScreencast', { format: 'jpeg', quality: 92 });
  await act();
  await tools.send('Page.stopScreencast');
  const end = Date.now() / 1000;
  await Promise.all(writing);
  return frames
    .map(({ file, at }, index) => `file '${file}'\nduration ${Math.max((frames[index + 1]?.at ?? end) - at, 0.001)}\n`)
    .join('');
}

/** What is being done, written over the page while it is done; long enough to be read. */
async function say(page: Page, words: string): Promise<void> {
  await page.evaluate((text) => {
    const id = 'film-words';
    const line = document.getElementById(id) ?? document.body.appendChild(document.createElement('p'));
    line.id = id;
    line.textContent = text;
    Object.assign(line.style, {
      position: 'fixed',
      inset: 'auto 0 0 0',
      margin: '0',
      padding: '14px 24px',
      font: '600 22px/1.3 system-ui, sans-serif',
      color: '#fffffa',
      background: '#1d2129',
      textAlign: 'center',
      zIndex: '99999',
    });
    for (const tool of document.querySelectorAll('astro-dev-toolbar')) tool.remove();
  }, words);
  await page.waitForTimeout(1800);
}

async function cuttingRoom(page: Page): Promise<void> {
  await page.goto(`${started.address}cutting-room/front-brake/`);
  await page.locator('.strip .over').waitFor();
  await page.locator('.suggestions li').first().waitFor();
}

async function cut(page: Page): Promise<void> {
  const press = async (...keys: string[]) => {
    for (const key of keys) {
      await page.keyboard.press(key);
      await page.waitForTimeout(500);
    }
  };
  await say(page, 'The recording hangs down the left: pictures, sound, steps. L plays, twice at double speed.');
  await press('l', 'l');
  await page.waitForTimeout(2500);
  await press('k');
  await say(page, 'G goes to what is proposed: here a step, by its first words. Y takes it.');
  await press('g');
  await page.waitForTimeout(1500);
  await press('y');
  await page.waitForTimeout(1500);
  await say(page, 'One key at each step sets its cue. Everything is checked and saved as you go.');
  await press('ArrowDown', 'ArrowDown', 'ArrowDown', 'Enter', 'ArrowRight', 'm');
  await page.waitForTimeout(1500);
}

async function lesson(page: Page): Promise<void> {
  await page.goto(`${started.address}lessons/front-brake/`);
  await page.evaluate(() => document.fonts.ready);
  await say(page, 'The lesson: film beside its steps.');
  await page.locator('.start').first().click();
  await page.waitForTimeout(5000);
}

async function search(page: Page): Promise<void> {
  await page.goto(started.address);
  await say(page, 'At home, with oily hands: how tight was that nut?');
  await page.getByRole('searchbox').first().pressSequentially('how tight is the rear axle nut', { delay: 60 });
  await page.keyboard.press('Enter');
  await page.locator('.results').waitFor();
  await say(page, 'The value for your own machine, with its source, and the step where it is used.');
  await page.waitForTimeout(1500);
}

async function runSheet(page: Page): Promise<void> {
  await page.goto(`${started.address}classes/chain-saturday/run-sheet/`);
  await say(page, 'And the class fits its slot: the run sheet for Saturday.');
  await page.waitForTimeout(2500);
}
