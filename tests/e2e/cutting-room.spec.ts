import { spawn } from 'node:child_process';
import { mkdtemp, readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { chromium, expect, type Page, type Route, test } from '@playwright/test';
import { findChromium } from '../../src/node/programs/index.ts';
import { frameSeen } from '../support/frame-seen.ts';
import { mayMount, mountSmallDisk } from '../support/small-disk.ts';
import { discard, drawFootage, roomContent, type Started, startRoom } from '../support/start-room.ts';

const RECORDING = `# Shot with one camera
title: Front brake pads, uncut
files:
  - file: media/pads.mp4   # the whole card
rate: "25"
captions: media/pads.vtt
people:
  - {role: instructor, release: on-file}
`;

const CAPTIONS = `WEBVTT

00:00:03.000 --> 00:00:07.000
We look at the pads from below.

00:00:21.000 --> 00:00:25.000
Both wheels straight now.

00:00:26.000 --> 00:00:49.000
[no speech]

00:01:02.000 --> 00:01:39.000
[no speech]
`;

let content = '';
let room: Started;

test.describe.configure({ mode: 'serial' });
test.beforeAll(async () => {
  content = await roomContent({ 'recordings/pads.yaml': RECORDING, 'media/pads.vtt': CAPTIONS });
  await drawFootage(join(content, 'media/pads.mp4'), 100);
  room = await startRoom(content);
});
test.afterAll(async () => {
  await room.stop();
  await discard(content);
});

const read = (file: string) => readFile(join(content, file), 'utf8');
const open = async (page: Page) => {
  await page.goto(`${room.address}cutting-room/pads/`);
  await expect(page.locator('.strip .over')).toBeVisible();
};
const keys = async (page: Page, ...names: string[]) => {
  for (const name of names) await page.keyboard.press(name);
};
const typed = async (page: Page, key: string, words: string) => {
  await page.keyboard.press(key);
  await expect(page.locator('#asking-field')).toBeFocused();
  await page.keyboard.insertText(words);
  await page.keyboard.press('Enter');
  await expect(page.locator('#asking-field')).toHaveCount(0);
};
const written = async (page: Page, words: string) => {
  await page.keyboard.press('w');
  await expect(page.locator('.text textarea')).toBeFocused();
  await page.keyboard.insertText(words);
  await page.keyboard.press('Escape');
};
const saved = (page: Page) => expect(page.locator('.save')).toHaveText('Saved');
const forward = (page: Page, seconds: number) => keys(page, ...Array<string>(seconds).fill('Shift+ArrowRight'));

test('a new recording without cues becomes a finished, checked lesson by keyboard alone', async ({ page }) => {
  await open(page);
  await expect(page.locator('#new-title')).toBeFocused();
  await page.keyboard.type('Front brake pads');
  await page.keyboard.press('Enter');
  await expect(page.locator('.strip .over')).toBeFocused();

  await forward(page, 2);
  await typed(page, 'c', 'Look first');
  await typed(page, 'a', 'Measure the pads');
  await written(page, 'Look in from below: worn down to the groove they are too thin to ride on.');
  await forward(page, 18);
  await typed(page, 'a', 'Put the bike on its stand');
  await written(page, 'Both wheels straight, on level ground.');
  await forward(page, 20);
  await typed(page, 'c', 'Close up');
  await typed(page, 'a', 'Pump the lever');
  await written(page, 'Pump until it is hard again, before anyone rides.');

  // The last cue was set a second early: choose it, go there, one frame on is not enough, so put it anew.
  await keys(page, 'Enter', 'Shift+ArrowRight', 'ArrowRight', 'm');
  // Take out the talk between 0:00:50 and 0:01:00, then its tail by moving the edge a frame.
  await keys(page, 'Home');
  await forward(page, 50);
  await keys(page, 'i');
  await forward(page, 10);
  await keys(page, 'o', 'x', ']');
  await saved(page);
  await expect(page.locator('#findings-title')).toContainText('no problems found');

  await expect
    .poll(() => read('lessons/pads.mdx'))
    .toBe(`---
title: Front brake pads
recording: pads
machine: tarn-420
---

## Look first
<Cue at="0:00:02" />

### Measure the pads
<Cue at="0:00:02" />
Look in from below: worn down to the groove they are too thin to ride on.

### Put the bike on its stand
<Cue at="0:00:20" />
Both wheels straight, on level ground.

## Close up
<Cue at="0:00:40" />

### Pump the lever
<Cue at="0:00:41.04" />
Pump until it is hard again, before anyone rides.
`);
  await expect
    .poll(() => read('recordings/pads.yaml'))
    .toBe(`${RECORDING}edit:
  - {in: "0:00:00", out: "0:00:50"}
  - {in: "0:01:00.04", out: "0:01:40"}
`);
});

test('undo and redo by meaning give the bytes back and bring them again', async ({ page }) => {
  await open(page);
  await expect(page.locator('.entry').first()).toBeVisible();
  const before = await read('lessons/pads.mdx');
  await keys(page, 'ArrowDown', 'Enter', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'm');
  const after = before.replace(
    '### Measure the pads\n<Cue at="0:00:02" />',
    '### Measure the pads\n<Cue at="0:00:02.04" />',
  );
  await expect.poll(() => read('lessons/pads.mdx')).toBe(after);
  await saved(page);
  await keys(page, 'Control+z');
  await expect(page.locator('.said')).toHaveText('undone: moved cue of “Measure the pads”');
  await expect.poll(() => read('lessons/pads.mdx')).toBe(before);
  await saved(page);
  await keys(page, 'Control+Shift+z');
  await expect.poll(() => read('lessons/pads.mdx')).toBe(after);
  await saved(page);
  await keys(page, 'Control+z');
  await saved(page);
});

test('stepping by keys shows that very frame, and playing as programme leaves out what is cut', async ({ page }) => {
  await open(page);
  await keys(page, 'ArrowDown', 'ArrowDown', 'Enter');
  await expect.poll(() => frameSeen(page)).toBe(500);
  await keys(page, 'ArrowRight', 'ArrowRight', 'ArrowRight');
  await expect.poll(() => frameSeen(page)).toBe(503);
  await keys(page, 'ArrowLeft');
  await expect.poll(() => frameSeen(page)).toBe(502);
  await expect(page.locator('.clocks dd').first()).toHaveText('00:00:20:02');
  // Two seconds either side of the join at 0:00:50: it stops two seconds of programme after it.
  await keys(page, 'b');
  await expect(page.locator('.clocks .speed')).toContainText('1×, edited');
  await expect(page.locator('.clocks .speed')).toContainText('Stopped');
  await expect(page.locator('.clocks dd').first()).toHaveText('00:01:02:01');
});

test('what an editor wrote elsewhere is taken in; in the same line both stand side by side @long', async ({ page }) => {
  await open(page);
  await expect(page.locator('.entry').first()).toBeVisible();
  const before = await read('lessons/pads.mdx');
  await writeFile(
    join(content, 'lessons/pads.mdx'),
    before.replace('Both wheels straight', 'Both wheels dead straight'),
  );
  await expect(page.locator('.said')).toContainText('taken in');
  await keys(page, 'ArrowDown', 'Enter', 'ArrowRight', 'm');
  await expect.poll(() => read('lessons/pads.mdx')).toContain('Both wheels dead straight');
  await expect.poll(() => read('lessons/pads.mdx')).toContain('0:00:02.04');
  await saved(page);

  // The same line: the page writes while the server is held up, somebody else writes meanwhile.
  const writeBetween = async (route: Route) => {
    const now = await read('lessons/pads.mdx');
    await writeFile(join(content, 'lessons/pads.mdx'), now.replace('0:00:02.04', '0:00:03'));
    await route.continue();
  };
  await page.route('**/api/save/', writeBetween, { times: 1 });
  await keys(page, 'ArrowUp', 'Enter', 'Shift+ArrowRight', 'Shift+ArrowRight', 'm');
  const dialog = page.locator('dialog.clashes');
  await expect(dialog).toBeVisible();
  await expect(dialog.locator('pre').first()).toContainText('0:00:04.04');
  await expect(dialog.locator('pre').nth(1)).toContainText('0:00:03');
  expect(await read('lessons/pads.mdx')).toContain('0:00:03');
  await dialog.getByLabel('From elsewhere').check();
  await dialog.getByRole('button', { name: 'Save this' }).press('Enter');
  await expect.poll(() => read('lessons/pads.mdx')).toContain('<Cue at="0:00:03" />');
  await saved(page);
  await writeFile(join(content, 'lessons/pads.mdx'), before);
});

/** A browser of its own with a profile on disk, to be killed with everything in it. */
async function profiledBrowser(profile: string): Promise<{ page: Page; kill: () => Promise<void> }> {
  const executable = (await findChromium(process.env)) ?? chromium.executablePath();
  const words = ['--headless', '--no-sandbox', '--disable-gpu', '--remote-debugging-port=0'];
  const child = spawn(executable, [...words, `--user-data-dir=${profile}`, 'about:blank'], { detached: true });
  const address = await new Promise<string>((done) => {
    child.stderr.on('data', (chunk: Buffer) => {
      const found = /DevTools listening on (ws:\S+)/.exec(chunk.toString())?.[1];
      if (found) done(found);
    });
  });
  const browser = await chromium.connectOverCDP(address);
  const page = await browser.contexts()[0]?.newPage();
  if (!page) throw new Error('the browser has no page');
  return {
    page,
    async kill() {
      const ended = new Promise((done) => child.once('exit', done));
      process.kill(-(child.pid ?? 0), 'SIGKILL');
      await ended;
    },
  };
}

/** What the page keeps in the browser's own database, read over a connection of its own, so only what is written. */
function unsaved(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const result = <T>(request: IDBRequest<T>) =>
      new Promise<T>((done, failed) => {
        request.onsuccess = () => done(request.result);
        request.onerror = () => failed(request.error);
      });
    const database = await result(indexedDB.open('liftside-cutting-room'));
    const kept = await result(database.transaction('unsaved').objectStore('unsaved').getAll());
    database.close();
    return JSON.stringify(kept);
  });
}

test('a server and a browser that are both killed lose nothing that the browser has kept', {
  tag: '@long',
}, async () => {
  const profile = await mkdtemp(join(tmpdir(), 'liftside-profile-'));
  const before = await read('lessons/pads.mdx');
  const first = await profiledBrowser(profile);
  await open(first.page);
  await expect(first.page.locator('.entry').first()).toBeVisible();
  await room.stop('SIGKILL');
  await keys(first.page, 'ArrowDown', 'Enter', 'ArrowRight', 'm');
  await expect(first.page.locator('.save')).toContainText('does not answer');
  expect(await read('lessons/pads.mdx')).toBe(before);
  await expect.poll(() => unsaved(first.page)).toContain('0:00:02.04');
  await first.kill();
  room = await startRoom(content, Number(new URL(room.address).port));
  const again = await profiledBrowser(profile);
  await open(again.page);
  await saved(again.page);
  await expect.poll(() => read('lessons/pads.mdx')).toContain('0:00:02.04');
  await keys(again.page, 'Control+z');
  await saved(again.page);
  await expect.poll(() => read('lessons/pads.mdx')).toBe(before);
  await again.kill();
  await discard(profile);
});

test('on a full disk the page says so, keeps the work, and saves it once there is room', { tag: '@long' }, async ({
  page,
}) => {
  test.skip(!mayMount(), 'this user may not mount a small disk; tests/node/files holds the same with a fault let in');
  const before = await read('lessons/pads.mdx');
  const disk = mountSmallDisk(join(content, 'lessons'));
  try {
    await writeFile(join(content, 'lessons/pads.mdx'), before);
    await open(page);
    await expect(page.locator('.entry').first()).toBeVisible();
    await disk.fill();
    await keys(page, 'ArrowDown', 'Enter', 'ArrowRight', 'm');
    await expect(page.locator('.save')).toContainText('lessons/pads.mdx could not be written: the disk is full');
    expect(await read('lessons/pads.mdx')).toBe(before);
    // More work meanwhile is kept too.
    await keys(page, 'Shift+ArrowRight', 'm');
    await disk.free();
    await expect.poll(() => read('lessons/pads.mdx')).toContain('0:00:02.04');
    await expect.poll(() => read('lessons/pads.mdx')).toContain('0:00:03.04');
    await saved(page);
  } finally {
    disk.unmount();
  }
  expect(await read('lessons/pads.mdx')).toBe(before);
});

test('keys are shown, can be changed, and refuse what belongs to the browser', async ({ page }) => {
  await open(page);
  await keys(page, '?');
  const help = page.locator('dialog.help');
  await expect(help).toBeVisible();
  await help.getByRole('button', { name: /Play or stop/ }).press('Enter');
  await keys(page, 'F5');
  await expect(help.locator('.trouble')).toContainText('belongs to the browser');
  await keys(page, 'm');
  await expect(help.locator('.trouble')).toContainText('Set the cue of the chosen step');
  await keys(page, '9', 'Escape');
  await expect(help).toBeHidden();
  await keys(page, '9');
  await expect(page.locator('.clocks .speed')).toHaveText('1×');
  await keys(page, 'k', '?');
  await help.getByRole('button', { name: 'Reset keys' }).press('Enter');
  await keys(page, 'Escape');
});

test('nothing on the page keeps anyone out', { tag: '@long' }, async ({ page }) => {
  await open(page);
  await expect(page.locator('.entry').first()).toBeVisible();
  const told = async (axe: AxeBuilder) =>
    (await axe.analyze()).violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
  const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
  expect(await told(new AxeBuilder({ page }).withTags(tags))).toEqual([]);
  await page.emulateMedia({ colorScheme: 'dark' });
  expect(await told(new AxeBuilder({ page }).withRules(['color-contrast']))).toEqual([]);
  await keys(page, '?');
  await expect(page.locator('dialog.help')).toBeVisible();
  expect(await told(new AxeBuilder({ page }).include('dialog').withTags(tags))).toEqual([]);
});
