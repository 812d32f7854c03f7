import { spawn } from 'node:child_process';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { expect as eventually, type Page } from '@playwright/test';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { serveSite } from '../../../src/node/site/index.ts';
import { openBrowser } from '../../support/open-browser.ts';
import { type Deed, readWalk, section } from '../../support/readme-walk.ts';
import { HOME } from '../support/run.ts';

// The ten minutes of the README, its own lines from top to bottom in an empty folder: what is typed is run, what stands
// in a block is written, and what is pressed is pressed in Chromium. Needs ffmpeg with flite, espeak-ng and Chromium.

let place = '';
/** Liftside as its package holds it, so that nothing of the tests or the demo can help. */
let program = '';

beforeAll(async () => {
  place = await mkdtemp(join(tmpdir(), 'liftside-walk-'));
  program = join(place, 'liftside');
  const { files } = JSON.parse(await readFile(join(HOME, 'package.json'), 'utf8')) as { files: string[] };
  for (const file of [...files, 'package.json', 'LICENSE', 'README.md'])
    await cp(join(HOME, file), join(program, file), { recursive: true });
  // What npm ci would bring, by hard links where both lie on one disk; a link to the folder would lead out of the program.
  const packages = join(HOME, 'node_modules');
  const linked = await execa('cp', ['-a', '--link', packages, program], { reject: false });
  if (linked.exitCode !== 0) await cp(packages, join(program, 'node_modules'), { recursive: true });
  // A new machine has worked out nothing yet.
  await rm(join(program, 'node_modules/.vite'), { recursive: true, force: true });
});
afterAll(() => rm(place, { recursive: true, force: true }));

/** A test runner's own variables would make the site's builder build no pages. */
const { VITEST: _runner, NODE_ENV: _mode, TEST: _test, ...calm } = process.env;
const exported: Record<string, string> = {};
const counts = { lines: 0, files: 0, keys: 0, letters: 0 };

async function run(line: string): Promise<string> {
  counts.lines++;
  const named = /^export (\w+)=(\S+)$/.exec(line);
  if (named?.[1]) {
    exported[named[1]] = named[2] ?? '';
    return '';
  }
  const { exitCode, all } = await execa('bash', ['-c', line], {
    cwd: program,
    env: { ...calm, ...exported, NO_COLOR: '1' },
    extendEnv: false,
    reject: false,
    all: true,
  });
  expect(exitCode, `${line}\n${all}`).toBe(0);
  return all;
}

/** A line that goes on until somebody stops it; the address it prints. */
async function begin(line: string) {
  counts.lines++;
  // A group of its own: what the line starts ends with it, as by Ctrl C in a terminal.
  const shell = spawn('bash', ['-c', line], { cwd: program, env: { ...calm, ...exported }, detached: true });
  let heard = '';
  const address = await new Promise<string>((done, failed) => {
    const hear = (chunk: Buffer) => {
      heard += chunk.toString();
      const found = /the cutting room: (http:\S+)\n/.exec(heard)?.[1];
      if (found) done(found);
    };
    shell.stdout.on('data', hear);
    shell.stderr.on('data', hear);
    shell.once('exit', (code) => failed(new Error(`${line} ended with ${code}:\n${heard}`)));
  });
  const stop = () =>
    new Promise<void>((done) => {
      if (shell.exitCode !== null || shell.pid === undefined) return done();
      shell.once('exit', () => done());
      process.kill(-shell.pid, 'SIGINT');
    });
  return { address, stop };
}

async function inRoom(page: Page, deed: Deed): Promise<void> {
  if (deed.does === 'presses') {
    counts.keys++;
    await page.keyboard.press(deed.key);
    // Whoever has pressed it looks up: is the text open, is the film back?
    if (deed.key === 'w') await eventually(page.locator('.text textarea')).toBeFocused();
    if (deed.key === 'Escape') await eventually(page.locator('.text textarea')).not.toBeFocused();
  } else if (deed.does === 'types') {
    counts.letters += deed.words.length;
    await page.keyboard.insertText(deed.words);
  }
}

test('whoever follows the ten minutes of the README word for word has a class and a site', async () => {
  const started = Date.now();
  const parts = readWalk(section(await readFile(join(HOME, 'README.md'), 'utf8'), 'Your own class, in ten minutes'));
  const said = new Map<string, string>();
  const times: string[] = [];
  let room: Awaited<ReturnType<typeof begin>> | undefined;
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  try {
    for (const { title, deeds } of parts) {
      const from = Date.now();
      for (const deed of deeds)
        if (deed.does === 'writes') {
          counts.files++;
          await mkdir(dirname(resolve(program, deed.file)), { recursive: true });
          await writeFile(resolve(program, deed.file), deed.text);
        } else if (deed.does !== 'runs') await inRoom(page, deed);
        else if (deed.line === 'npm start') {
          room = await begin(deed.line);
          await page.goto(room.address);
          await page.getByRole('link', { name: /The axle nut, uncut/ }).click();
          await eventually(page.locator('.strip .over')).toBeVisible({ timeout: 60_000 });
          // Whoever looks at the page sees the proposals before they press a key.
          await eventually(page.locator('.suggestions')).toContainText('without a word', { timeout: 60_000 });
        } else said.set(deed.line, await run(deed.line));
      if (room) await eventually(page.locator('.save')).toHaveText('Saved', { timeout: 60_000 });
      // Where the text says Ctrl C.
      if (title.startsWith('4')) {
        await room?.stop();
        room = undefined;
      }
      times.push(`${((Date.now() - from) / 1000).toFixed(1).padStart(6)} s  ${title}`);
    }
  } finally {
    await browser.close();
    await room?.stop();
  }
  expect(said.get('npx liftside check')).toMatch(/no problems found\s*$/);
  expect(said.get('npx liftside fit first-class')).toContain('fits');
  const shop = join(place, 'our-shop');
  // Four captions were found in the sound, and all of them read.
  const captions = await readFile(join(shop, 'media/first-recording.vtt'), 'utf8');
  expect([captions.split('-->').length - 1, captions.includes('unread-')]).toEqual([4, false]);
  // The first two at the start, the others where the sentences begin that were found in the sound.
  const cues = [...(await readFile(join(shop, 'lessons/first-lesson.mdx'), 'utf8')).matchAll(/at="0:00:(\d+)/g)];
  const seconds = cues.map(([, figure]) => Number(figure));
  expect(seconds.slice(0, 2)).toEqual([0, 0]);
  expect(seconds[2]).toBeGreaterThan(2);
  expect(seconds[3]).toBeGreaterThan((seconds[2] ?? 0) + 2);
  expect(await readFile(join(shop, 'recordings/first-recording.yaml'), 'utf8')).toMatch(/edit:\n\s+- \{in: "0:00:00"/);
  expect((await readdir(join(place, 'for-a-stick'))).includes('READ ME FIRST.html')).toBe(true);

  const site = await serveSite({ dir: join(place, 'our-site') });
  const reader = await openBrowser();
  try {
    const lesson = await reader.newPage();
    await lesson.goto(`${site.address}lessons/first-lesson/`);
    await eventually(lesson.locator('main')).toContainText('98 ± 5 N·m');
    await eventually(lesson.locator('main')).toContainText('Hold the wheel still');
    await lesson.goto(`${site.address}classes/first-class/run-sheet/`);
    await eventually(lesson.locator('body')).toContainText('Everybody tightens one');
  } finally {
    await reader.close();
    await site.close();
  }
  const { lines, files, keys, letters } = counts;
  console.log(
    [
      `README, ten minutes: ${lines} lines run, ${files} files written, ${keys} keys pressed, ${letters} letters typed,`,
      `${((Date.now() - started) / 60_000).toFixed(1)} min of the machine`,
      ...times,
    ].join('\n  '),
  );
});
