import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { TICKS_PER_SECOND } from '../../src/core/time/index.ts';
import { chromiumFor, onPath } from '../../src/node/programs/index.ts';
import { TASKS, type Task } from '../e2e/newcomer/tasks.ts';
import { call } from '../support/call.ts';
import { demoTimes } from '../support/lesson-page.ts';
import { copyDemo, discard } from '../support/start-room.ts';
import { act, WAIT } from './hands.ts';

// npm run firefox: a package opened from its folder, as by double click, in both browsers, each driven by its own
// protocol. The programme is divided, as a very long one is for a stick.

let cwd: string;
/** Lengths of the programme's files, ticks. */
let parts: readonly number[];
/** Of a package that is there already, to spare the time it takes to make one. */
const THERE = process.env.LIFTSIDE_TEST_PACKAGE;
const folder = () => THERE ?? join(cwd, 'package');
const at = (path: string) => pathToFileURL(join(folder(), path)).href;

beforeAll(async () => {
  cwd = await mkdtemp(join(tmpdir(), 'liftside-from-folder-'));
  if (THERE === undefined) {
    const words = ['pack', 'chain-saturday', '--largest-file', '25MB', '-o', folder()];
    // Of a copy, since what is packed is rendered first, and kept beside the footage.
    const content = await copyDemo();
    const { code, said } = await call(words, { content, env: process.env });
    await discard(content);
    expect([code, code === 0 ? '' : said]).toEqual([0, '']);
  }
  const film = JSON.parse(await readFile(join(folder(), 'film/chain.json'), 'utf8'));
  parts = film.parts;
});
afterAll(() => rm(cwd, { recursive: true, force: true }));

/** The other lesson is in another package, and a class is in its own from the start. */
const HERE = TASKS.filter(
  ({ aim, actions, wants }) =>
    !('lesson' in aim && aim.lesson !== 'chain') &&
    !wants.includes('class') &&
    !actions.some((action) => 'choose' in action && /brake|fluid|pads/i.test(action.choose)),
);

describe.each(['firefox', 'chrome'] as const)('%s, from a folder', (name) => {
  let browser: Browser;
  let page: Page;
  const amiss: string[] = [];

  beforeAll(async () => {
    const firefox = name === 'firefox' ? await onPath(['firefox-esr', 'firefox'], process.env) : undefined;
    if (name === 'firefox' && firefox === undefined)
      throw new Error('Firefox is not installed: apt-get install firefox-esr');
    const executablePath = firefox ?? (await chromiumFor('pages are opened', process.env));
    browser = await puppeteer.launch({
      ...{ browser: name, executablePath, headless: true, protocolTimeout: 600_000 },
      ...(name === 'firefox'
        ? { extraPrefsFirefox: { 'media.autoplay.default': 0 } }
        : { args: ['--no-sandbox', '--autoplay-policy=no-user-gesture-required'] }),
    });
    page = await browser.newPage();
    await page.setViewport({ width: 1280, height: 900 });
    page.on('pageerror', (error) => amiss.push(String(error)));
    page.on('console', (line) => line.type() === 'error' && amiss.push(line.text()));
  });
  afterAll(async () => {
    await browser?.close();
    expect(amiss).toEqual([]);
  });

  /** The moment of the programme whose picture is there, by the file that shows it; -1 while there is none. Ticks. */
  async function onAir(): Promise<number> {
    const shown = await page.evaluate(() => {
      const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
      if (!video || video.readyState < 2 || video.seeking) return undefined;
      return { file: video.currentSrc.split('/').at(-1) ?? '', at: video.currentTime };
    });
    const part = Number(shown?.file.split('.')[1]);
    if (!shown || Number.isNaN(part)) return -1;
    const before = parts.slice(0, part - 1).reduce((sum, length) => sum + length, 0);
    return before + shown.at * TICKS_PER_SECOND;
  }

  test('READ ME FIRST leads to the class, its lesson and its papers', async () => {
    await page.goto(at('READ ME FIRST.html'));
    expect(await page.$eval('main', (main) => (main as HTMLElement).innerText)).toContain(`${parts.length} files`);
    await act(page, { choose: 'Open the class' });
    expect(await page.$eval('h1', (title) => (title as HTMLElement).innerText)).toContain('Chain and sprockets');
    await page.goto(at('READ ME FIRST.html'));
    await act(page, { choose: 'Replace the chain and sprockets' });
    await page.waitForSelector('lesson-player.ready', WAIT);
  });

  test('the programme plays from one file into the next, with one clock, its captions and the place kept', async () => {
    expect(parts.length).toBeGreaterThan(2);
    const { chapters } = await demoTimes('chain');
    const second = chapters.find(({ chapter }) => chapter.id === 'change-the-sprockets')!;
    const seconds = second.at.start / TICKS_PER_SECOND;
    await page.goto(`${at('pages/lessons/chain/index.html')}#t=${(seconds - 4).toFixed(2)}`);
    await page.waitForSelector('lesson-player.open', WAIT);
    const look = () =>
      page.evaluate(() => {
        const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
        const { player } = document.querySelector('.video-js') as unknown as {
          player: { currentTime(): number; duration(): number; paused(): boolean };
        };
        return {
          file: video?.currentSrc.split('/').at(-1),
          time: player.currentTime(),
          length: player.duration(),
          paused: player.paused(),
          step: document.querySelector('[aria-current=step]')?.textContent ?? '',
          words: document.querySelector('.vjs-text-track-display')?.textContent ?? '',
        };
      });
    await expect.poll(look, WAIT).toMatchObject({ file: 'chain.1.mp4' });
    await expect.poll(async () => (await look()).length, WAIT).toBeGreaterThan(seconds);
    const whole = (await look()).length;
    await page.focus('.vjs-play-control');
    await page.waitForFunction(
      () => document.querySelectorAll('.vjs-subs-caps-button li.vjs-menu-item').length > 1,
      WAIT,
    );
    await page.keyboard.press('c');
    if ((await look()).paused) await page.keyboard.press(' ');
    await expect.poll(look, WAIT).toMatchObject({ file: 'chain.2.mp4', length: whole });
    await expect.poll(async () => (await look()).time, WAIT).toBeGreaterThan(seconds);
    const after = await look();
    expect(after.time).toBeLessThan(seconds + 60);
    await expect.poll(async () => (await look()).words, WAIT).not.toBe('');
    await page.keyboard.press(' ');
    await expect.poll(async () => (await look()).paused, WAIT).toBe(true);
    // A seek into the last file; to whoever comes back the place is offered that was watched.
    await page.evaluate(
      (to) => {
        location.hash = `t=${to}`;
      },
      (whole - 60).toFixed(1),
    );
    await expect.poll(look, WAIT).toMatchObject({ file: `chain.${parts.length}.mp4` });
    await page.goto('about:blank');
    await page.goto(at('pages/lessons/chain/index.html'));
    await page.waitForSelector('[data-resume]:not([hidden])', WAIT);
    await page.click('[data-resume]');
    await expect.poll(look, WAIT).toMatchObject({ file: 'chain.2.mp4' });
  });

  test('a class is led: two windows, a step by its number, a question; what happened outlives the page', async () => {
    await page.goto(at('pages/classes/chain-saturday/present/index.html'));
    await page.waitForSelector('.people output', WAIT);
    const words = (of: Page, selector: string) =>
      of.$$eval(selector, ([first]) => (first as HTMLElement | undefined)?.innerText ?? '');
    const opened = new Promise<Page | null>((done) => page.once('popup', done));
    await act(page, { press: 'Open the room’s window' });
    const room = await opened;
    if (!room) throw new Error('the room’s window did not open');
    await expect.poll(() => words(room, 'h1'), WAIT).toBe('Chain and sprockets on a Saturday');
    await page.bringToFront();
    await act(page, { press: 'Begin the class' });
    await expect.poll(() => words(room, 'h1'), WAIT).toBe('Welcome, names, who rides what');
    await page.keyboard.press('g');
    await page.keyboard.type('5.3');
    await page.keyboard.press('Enter');
    await expect.poll(() => words(room, '.values dd'), WAIT).toContain('0.5');
    await page.keyboard.press('q');
    await page.keyboard.type('Why not by the marks?');
    await page.keyboard.press('Enter');
    await page.keyboard.press('+');
    await expect.poll(() => words(page, '.people output'), WAIT).toBe('1');
    await page.reload();
    await expect.poll(() => words(page, '.people output'), WAIT).toBe('1');
    expect(await words(page, 'body')).toContain('Why not by the marks?');
    // The window that was opened before the page was loaded again is led on.
    await page.keyboard.press('d');
    await expect.poll(() => room.$$eval('.black', ({ length }) => length), WAIT).toBe(1);
    await room.close();
  });

  test.each(HERE)('$wants', async ({ actions, aim }: Task) => {
    await page.goto('about:blank');
    await page.goto(at('pages/index.html'));
    await page.evaluate(() => localStorage.clear());
    await page.goto(at('pages/index.html'));
    for (const action of actions) await act(page, action);
    if ('words' in aim) {
      const text = () =>
        page.$$eval(
          aim.in,
          (all) => (all.find((each) => each.checkVisibility()) as HTMLElement | undefined)?.innerText ?? '',
        );
      await expect.poll(text, WAIT).toMatch(aim.words);
      return;
    }
    const { chapters } = await demoTimes(aim.lesson);
    const steps = chapters.flatMap((chapter) => chapter.steps);
    const { step, at: span } = steps.find((each) => each.step.id === aim.frameOf)!;
    // A chapter begins with words of its own before its first step.
    const from = chapters.find((chapter) => chapter.steps[0]?.step.id === step.id)?.at.start ?? span.start;
    const frame = 0.05 * TICKS_PER_SECOND;
    await expect
      .poll(async () => {
        const moment = await onAir();
        return moment >= from - frame && moment < span.end;
      }, WAIT)
      .toBe(true);
  });
});
