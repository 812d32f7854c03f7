import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { type Browser, chromium, type Page } from '@playwright/test';
import { expect, test } from 'vitest';
import { findChromium } from '../../../src/node/programs/index.ts';
import { copyDemo, discard, type Started, startRoom } from '../../support/start-room.ts';
import { classFolder, inLog, leader, PRESSES, saidKept } from '../support/class-day.ts';
import { child, countChanges, figures, inFolder, MAIN } from '../support/run.ts';

test('killed before and in the middle of every change of the disk, a class has lost nothing that it was told is kept', async () => {
  const changes = await inFolder('class-day', async (folder) => {
    await classFolder(folder);
    return countChanges(leader(folder));
  });
  let lost = 0;
  for (let place = 1; place <= changes; place++)
    for (const half of [false, true])
      await inFolder('class-day', async (folder) => {
        await classFolder(folder);
        const killed = await child(leader(folder), { killAt: { place, half } });
        expect(killed.signal).toBe('SIGKILL');
        const there = await inLog(folder);
        lost += saidKept(killed.stdout).filter((id) => !there.includes(id)).length;
        await child(leader(folder));
        expect(await inLog(folder)).toHaveLength(PRESSES + 1);
      });
  figures('a class led', { kills: 2 * changes, lost });
  expect(lost).toBe(0);
});

/** A browser whose process is ours to kill, with a profile that outlives it. */
async function openOwn(profile: string): Promise<{ browser: Browser; process: ChildProcess }> {
  const path = (await findChromium(process.env)) ?? chromium.executablePath();
  const flags = ['--headless=new', '--no-sandbox', '--disable-gpu', '--remote-debugging-port=0', '--no-first-run'];
  const own = spawn(path, [...flags, `--user-data-dir=${profile}`, 'about:blank'], { detached: true });
  const address = await new Promise<string>((done, failed) => {
    let told = '';
    own.stderr.on('data', (chunk: Buffer) => {
      told += chunk.toString();
      const found = /DevTools listening on (ws:\S+)/.exec(told)?.[1];
      if (found) done(found);
    });
    own.once('exit', () => failed(new Error(`the browser ended: ${told}`)));
  });
  return { browser: await chromium.connectOverCDP(address), process: own };
}

const killAll = (process: ChildProcess) => {
  if (process.pid !== undefined) globalThis.process.kill(-process.pid, 'SIGKILL');
};

/** Drawn by a fixed seed, so that a run can be repeated. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** Counts people in, for a drawn while; returns the moment of each press, ms. */
async function countForAWhile(page: Page, draw: () => number): Promise<readonly number[]> {
  const at: number[] = [];
  const until = performance.now() + 300 + draw() * 3000;
  while (performance.now() < until) {
    await page.keyboard.press('+');
    at.push(performance.now());
    await pause(50 + draw() * 400);
  }
  return at;
}

test('server or browser killed at 20 random moments of a class: nothing that was pressed more than a second before is lost', async () => {
  const content = await copyDemo();
  const draw = random(17);
  let started: Started = await startRoom(content);
  const port = Number(new URL(started.address).port);
  let pressed = 0;
  let lost = 0;
  const kills = { server: 0, browser: 0 };
  await inFolder('profile', async (profile) => {
    let own = await openOwn(join(profile, 'p'));
    const openLead = async (): Promise<Page> => {
      const [context] = own.browser.contexts();
      const page = await context?.newPage();
      if (!page) throw new Error('no page');
      page.setDefaultTimeout(300_000);
      // As a person would, who sees that the page did not open: on a busy machine its modules may not all arrive.
      for (let tries = 1; ; tries++) {
        await page.goto(`${started.address}classes/chain-saturday/present/`);
        const opened = await page
          .locator('.people output')
          .waitFor({ timeout: 60_000 })
          .then(() => true)
          .catch(() => false);
        if (opened) return page;
        if (tries === 5) throw new Error(`the page did not open: ${await page.locator('body').textContent()}`);
      }
    };
    const counted = async (page: Page) => Number(await page.locator('.people output').textContent()) || 0;
    try {
      let page = await openLead();
      await page.getByRole('button', { name: 'Begin the class' }).click();
      for (let round = 0; round < 20; round++) {
        const at = await countForAWhile(page, draw);
        pressed += at.length;
        const before = (await counted(page)) - at.length;
        const killed = performance.now();
        if (draw() < 0.5) {
          kills.server++;
          await started.stop('SIGKILL');
          started = await startRoom(content, port);
          await page.close();
        } else {
          kills.browser++;
          killAll(own.process);
          await own.browser.close().catch(() => undefined);
          own = await openOwn(join(profile, 'p'));
        }
        page = await openLead();
        const due = before + at.filter((moment) => moment < killed - 1000).length;
        const now = await counted(page);
        lost += Math.max(0, due - now);
        expect(now, `after kill ${round + 1}`).toBeGreaterThanOrEqual(due);
      }
    } finally {
      killAll(own.process);
      await started.stop();
      await discard(content);
    }
  });
  figures('a class killed at random moments', { pressed, ...kills, lost });
});

test('browser killed at 20 random moments of a class from a folder: nothing that was pressed more than a second before is lost', async () => {
  const content = await copyDemo();
  const draw = random(54);
  let pressed = 0;
  let lost = 0;
  await inFolder('packed-class', async (folder) => {
    const place = join(folder, 'package');
    const packed = await child([MAIN, 'pack', 'chain-saturday', '--to', 'folder', '-o', place, '--content', content]);
    expect(packed.exitCode, packed.all).toBe(0);
    const address = pathToFileURL(join(place, 'pages/classes/chain-saturday/present/index.html')).href;
    const counted = async (page: Page) => Number(await page.locator('.people output').textContent()) || 0;
    let own = await openOwn(join(folder, 'profile'));
    const openLead = async (): Promise<Page> => {
      const page = await own.browser.contexts()[0]?.newPage();
      if (!page) throw new Error('no page');
      page.setDefaultTimeout(300_000);
      await page.goto(address);
      await page.locator('.people output').waitFor();
      return page;
    };
    try {
      let page = await openLead();
      await page.getByRole('button', { name: 'Begin the class' }).click();
      for (let round = 0; round < 20; round++) {
        const before = await counted(page);
        const at = await countForAWhile(page, draw);
        pressed += at.length;
        const killed = performance.now();
        killAll(own.process);
        await own.browser.close().catch(() => undefined);
        own = await openOwn(join(folder, 'profile'));
        page = await openLead();
        const due = before + at.filter((moment) => moment < killed - 1000).length;
        const now = await counted(page);
        lost += Math.max(0, due - now);
        expect.soft(now, `after kill ${round + 1}`).toBeGreaterThanOrEqual(due);
      }
    } finally {
      killAll(own.process);
    }
  });
  await discard(content);
  figures('a class led from a folder, killed at random moments', { pressed, kills: 20, lost });
});
