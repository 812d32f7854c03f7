import { rename } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Browser, Page } from '@playwright/test';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { keptFrames } from '../../src/core/media/index.ts';
import { frameAt, toSeconds } from '../../src/core/time/index.ts';
import { buildSite, serveSite } from '../../src/node/site/index.ts';
import { demoTimes, openLesson, see, seek, watch } from '../support/lesson-page.ts';
import { openBrowser } from '../support/open-browser.ts';
import { demoCopy, workspace } from './make.ts';

const LESSON = 'front-brake';
const home = resolve(import.meta.dirname, '../..');

let folder: Awaited<ReturnType<typeof workspace>>;
let browser: Browser;
const served: { address: string; close(): Promise<void> }[] = [];
let [uncut, rendered] = ['', ''];

/** The demo's site as it stands, on a port of its own. */
async function site(content: string, name: 'uncut' | 'rendered'): Promise<string> {
  const out = folder.path(name);
  await buildSite({ content, out, home, footage: name, now: () => new Date() });
  const one = await serveSite({ dir: out });
  served.push(one);
  return one.address;
}

beforeAll(async () => {
  folder = await workspace();
  const first = await demoCopy(folder.path('content'));
  uncut = await site(first, 'uncut');
  // A content folder may be moved between two builds: nothing of the old place is asked for.
  const content = folder.path('moved');
  await rename(first, content);
  await execa(process.execPath, ['src/node/cli/liftside.mjs', 'render', LESSON, '--content', content]);
  rendered = await site(content, 'rendered');
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  for (const one of served) await one.close();
  await folder.remove();
});

async function open(address: string, path: string): Promise<Page> {
  const page = await browser.newPage({ baseURL: address, viewport: { width: 1280, height: 800 } });
  await openLesson(page, path);
  return page;
}

test('the page is the same; only what it plays is another file', async () => {
  const text = async (address: string) => {
    const page = await open(address, `lessons/${LESSON}/`);
    const said = await page.locator('main').evaluate((main) => {
      for (const player of main.querySelectorAll('lesson-player, script, style')) player.remove();
      return (main.textContent ?? '').replaceAll(/\s+/g, ' ');
    });
    await page.close();
    return said;
  };
  const [before, after] = [await text(uncut), await text(rendered)];
  expect(after).toBe(before);
  expect(after.length).toBeGreaterThan(2000);
});

// The number of the frame is read off the picture itself, in both.
test('each step shows the same picture from the rendered programme as from the uncut file', async () => {
  const { chapters, recording } = await demoTimes(LESSON);
  const steps = chapters.flatMap((chapter) => chapter.steps);
  const chosen = steps.filter((_, i) => i % 3 === 0 || i === steps.length - 1);
  expect(chosen.length).toBeGreaterThanOrEqual(8);
  const [plain, finished] = [await open(uncut, `lessons/${LESSON}/`), await open(rendered, `lessons/${LESSON}/`)];
  // A place without an opening of its own.
  const long = steps.find(({ at }) => toSeconds(at.end) - toSeconds(at.start) > 60)!;
  for (const page of [finished, plain]) await seek(page, toSeconds(long.at.start) + 40);
  const [programmeFile, cameraFile] = [(await see(finished)).file, (await see(plain)).file];
  expect([programmeFile, cameraFile]).toEqual([`${LESSON}.mp4`, `${LESSON}.mp4`]);
  expect(await source(finished)).toContain(`/footage/rendered/${LESSON}.mp4`);
  expect(await source(plain)).toContain(`/footage/media/${LESSON}.mp4`);
  for (const { step } of chosen) {
    const wanted = frameAt(step.cue!.at, recording.rate!);
    const frames = [];
    for (const [page, address] of [
      [plain, uncut],
      [finished, rendered],
    ] as const) {
      await page.goto('about:blank');
      await openLesson(page, new URL(`lessons/${LESSON}/#${step.id}`, address).href);
      frames.push((await see(page)).frame!);
    }
    for (const frame of frames) expect([step.id, Math.abs(frame - wanted) <= 1]).toEqual([step.id, true]);
  }
  await plain.close();
  await finished.close();
});

test('moments round every join are the same pictures, and nothing of a cut is seen while it plays', async () => {
  const { recording } = await demoTimes(LESSON);
  const rate = recording.rate!;
  const page = await open(rendered, `lessons/${LESSON}/`);
  const frame = toSeconds(rate.ticksPerFrame);
  const shown = async (programmeFrame: number) => {
    await seek(page, (programmeFrame + 0.5) * frame);
    return (await see(page)).frame;
  };
  for (const { at, first, count } of keptFrames(recording.edit, rate)) {
    expect(await shown(at)).toBe(first);
    expect(await shown(at + count - 1)).toBe(first + count - 1);
  }
  const [first, second] = recording.edit;
  const join = toSeconds(first!.end - first!.start);
  await seek(page, join - 1.2);
  await page.locator('.vjs-play-control').click();
  const seen = await watch(page, join + 1.2);
  const frames = seen.flatMap((one) => (one.frame === undefined ? [] : [one.frame]));
  const [out, into] = [frameAt(first!.end, rate), frameAt(second!.start, rate)];
  expect(frames.some((one) => one < out)).toBe(true);
  expect(frames.some((one) => one >= into)).toBe(true);
  // A cut point may lie inside a frame: one to either side.
  expect(frames.filter((one) => one > out && one < into - 1)).toEqual([]);
  await page.close();
});

/** The address of what is on air. */
function source(page: Page): Promise<string> {
  return page.evaluate(() => document.querySelector<HTMLVideoElement>('video[data-on-air]')!.currentSrc);
}
