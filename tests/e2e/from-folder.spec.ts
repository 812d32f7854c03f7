import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from '@playwright/test';
import { playing } from '../support/lesson-page.ts';
import { pagesAsPacked, siteForPackage } from '../support/packed-pages.ts';
import { BASE } from '../support/serve-demo.ts';

test.skip(BASE !== '/', 'a package is always built for the root');

test('opened from a folder: play, captions, chapters, search, my machine, measure, service record; nothing is refused or missing @long', async ({
  page,
}) => {
  const folder = await pagesAsPacked(await siteForPackage(), 'liftside.test');
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
