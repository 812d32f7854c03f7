import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from '@playwright/test';
import { pagesInFolder } from '../../src/node/pack/pages.ts';
import { playing } from '../support/lesson-page.ts';
import { BASE, CONTENT } from '../support/serve-demo.ts';

const MEDIA = ['chain-1.mp4', 'chain-2.mp4', 'front-brake.mp4'];

/** Places in a page that lead to nothing in the package. */
function deadEnds(from: string, html: string, has: (path: string) => boolean): string[] {
  // In text and in islands of JSON there may be anything.
  const places = [
    ...html.replace(/(<script[^>]*>)[^<]*/g, '$1').matchAll(/ (?:href|src|action|data-records)="([^"]*)"/g),
  ];
  return places.flatMap(([, place = '']) => {
    if (/^(?:#|data:|mailto:|https:\/\/millrace\.example\/)/.test(place)) return [];
    const to = new URL(place.replaceAll('&amp;', '&'), `file:///package/${from}`);
    return has(decodeURIComponent(to.pathname.slice('/package/'.length))) ? [] : [`${from}: ${place}`];
  });
}

/** The pages of the demo as a package has them, with its footage. */
async function packed(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'liftside-folder-'));
  const footage = new Map(MEDIA.map((file) => [`media/${file}`, `source/media/${file}`]));
  const pages = await pagesInFolder({ site: process.env.LIFTSIDE_TEST_SITE ?? '', footage, keep: 'liftside.test' });
  const there = new Set([...pages.keys(), ...footage.values(), 'READ ME FIRST.html']);
  const html = [...pages].filter(([path]) => path.endsWith('.html'));
  // The sheets of the class on its day too.
  expect(html.map(([path]) => path)).toContain('pages/classes/chain-saturday/run-sheet/index.html');
  expect(html.flatMap(([path, text]) => deadEnds(path, String(text), (to) => there.has(to)))).toEqual([]);
  for (const [path, bytes] of pages) {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), bytes);
  }
  await mkdir(join(folder, 'source'));
  await symlink(join(CONTENT, 'media'), join(folder, 'source/media'));
  return folder;
}

test.skip(BASE !== '/', 'a package is always built for the root');

test('opened from a folder: play, captions, chapters, search, my machine, measure, service record; nothing is refused or missing', async ({
  page,
}) => {
  const folder = await packed();
  const amiss: string[] = [];
  page.on('pageerror', ({ message }) => amiss.push(message));
  page.on('console', (said) => said.type() === 'error' && amiss.push(said.text()));
  // A film that is no longer wanted is let go, which counts as a failure too.
  page.on('requestfailed', (asked) => asked.url().endsWith('.mp4') || amiss.push(asked.url()));
  page.on('request', (asked) => /^(file|data):/.test(asked.url()) || amiss.push(asked.url()));
  const at = (path: string) => pathToFileURL(join(folder, 'pages', path)).href;
  try {
    await page.goto(at('lessons/chain/index.html'));
    await page.locator('.start').click();
    await playing(page, true);
    await page.locator('.vjs-play-control').focus();
    await page.keyboard.press('n');
    await expect(page.locator('[aria-current=step]')).toContainText('Measure the chain');
    // Only once they are there can captions be switched on.
    await expect(page.locator('.vjs-subs-caps-button li.vjs-menu-item').nth(1)).toBeAttached();
    await page.keyboard.press('c');
    await expect(page.locator('.vjs-text-track-display')).not.toBeEmpty();
    expect(await page.locator('.vjs-chapters-button li.vjs-menu-item').count()).toBe(5);
    expect(await page.locator('video[data-on-air]').getAttribute('src')).toContain('source/media/chain-1.mp4');

    await page.getByRole('navigation', { name: 'Site' }).getByRole('link', { name: 'Steps' }).click();
    await page.locator('input[type=search]').fill('axle nut 98 Nm');
    await expect(page.locator('.results li').first()).toContainText('axle nut');
    await page.locator('.results li a').first().click();
    await expect(page).toHaveURL(/\/pages\/lessons\/chain\/index\.html#/);

    await page.locator('.step').first().getByLabel('Chain, length over twenty pitches').fill('325');
    await page.getByRole('region', { name: 'Your record of this job' }).getByRole('link').click();
    const done = page.getByRole('article').getByRole('row').filter({ hasText: '1.1' });
    await expect(done).toContainText('325 mm');
    await page.locator('[data-name-machine]').first().click();
    await page.locator('select[name=year]').selectOption('2020');
    await page.keyboard.press('Escape');
    await page.goto(at('measure/index.html'));
    await expect(page.locator('[data-own-machine]')).toHaveText('Your machine: Tarn 420, 2020');
    const kept = await page.evaluate(() => Object.keys(localStorage));
    expect(kept.filter((key) => !key.startsWith('liftside.test '))).toEqual([]);
    expect(kept).toEqual(
      expect.arrayContaining(['liftside.test liftside.my-machine', 'liftside.test liftside.service-record']),
    );
    expect(amiss).toEqual([]);
  } finally {
    await rm(folder, { recursive: true });
  }
});
