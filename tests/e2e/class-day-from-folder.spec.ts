import { readFile, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { loadShop } from '../../src/node/files/index.ts';
import { addDayPages } from '../../src/node/pack/day-pages.ts';
import { ShippedPackages } from '../../src/node/site/shipped-packages.ts';
import { pointAndShowYear } from '../support/class-walk.ts';
import { pagesAsPacked, siteForPackage } from '../support/packed-pages.ts';
import { BASE, CONTENT } from '../support/serve-demo.ts';

const HOME = resolve(import.meta.dirname, '../..');

/** The demo's pages as the package of its class has them, and the licences that travel with them. */
async function packed(): Promise<{ folder: string; licences: readonly string[] }> {
  const site = await siteForPackage();
  const { shop } = await loadShop(CONTENT);
  const shopClass = shop.classes.find(({ id }) => id === 'chain-saturday');
  if (!shopClass) throw new Error('the demo has no class chain-saturday');
  const shipped = new ShippedPackages(HOME);
  await addDayPages({
    ...{ site, home: HOME, shop, shopClass, shipped },
    keep: 'liftside.test',
    filmOf: () => 'uncut',
  });
  const folder = await pagesAsPacked(site, 'liftside.test');
  return { folder, licences: shipped.folders };
}

const axe = async (page: Page) => {
  const { violations } = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze();
  return violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`);
};

test.skip(BASE !== '/', 'a package is always built for the root');

test('a class is led from a folder by keys alone: two windows, film, ways out, and what happened outlives the page and is saved', {
  tag: '@long',
}, async ({ context }) => {
  const { folder, licences } = await packed();
  expect(licences.map((path) => path.split('/').at(-1))).toContain('highs');
  const amiss: string[] = [];
  context.on('weberror', (error) => amiss.push(error.error().message));
  context.on('console', (said) => said.type() === 'error' && amiss.push(said.text()));
  context.on('request', (asked) => /^(file|data|blob):/.test(asked.url()) || amiss.push(asked.url()));
  const lead = await context.newPage();
  try {
    await lead.goto(pathToFileURL(join(folder, 'pages/classes/chain-saturday/present/index.html')).href);
    const [room] = await Promise.all([
      context.waitForEvent('page'),
      lead.getByRole('button', { name: 'Open the room’s window' }).press('Enter'),
    ]);
    await expect(room.getByRole('heading', { level: 1 })).toHaveText('Chain and sprockets on a Saturday');
    await lead.getByRole('button', { name: 'Begin the class' }).press('Enter');
    await lead.keyboard.press('n');
    await lead.keyboard.press('n');
    await expect(room.locator('.step-title')).toContainText('Look before you loosen');
    const seconds = () =>
      room.evaluate(() => document.querySelector<HTMLVideoElement>('video[data-on-air]')?.currentTime ?? 0);
    const first = await seconds();
    await expect.poll(seconds).toBeGreaterThan(first);
    // The solver has looked, in a worker that the page brought with it.
    await expect(lead.locator('.ways')).not.toHaveAttribute('data-look-ms', '0');

    // A step by its number, a ring drawn by keys alone, and the value of another year.
    await lead.keyboard.press('g');
    await lead.keyboard.type('5.3');
    await lead.keyboard.press('Enter');
    await expect(room.locator('.values dd').first()).toContainText('0.5');
    await pointAndShowYear(lead, room);

    await lead.keyboard.press('q');
    await lead.keyboard.type('Why not by the marks?');
    await lead.keyboard.press('Enter');
    await lead.keyboard.press('+');
    await lead.reload();
    await expect(lead.getByRole('heading', { level: 1 })).toHaveText('Look before you loosen');
    await expect(lead.getByText('Why not by the marks? (5.3)')).toBeVisible();
    await expect(lead.getByRole('button', { name: 'The room’s window is open' })).toBeVisible();

    await lead.locator('.packed-files summary').press('Enter');
    const [took] = await Promise.all([
      lead.waitForEvent('download'),
      lead.getByRole('button', { name: 'Save what it took' }).press('Enter'),
    ]);
    expect(took.suggestedFilename()).toBe('chain-saturday.actual.yaml');
    expect(await readFile(await took.path(), 'utf8')).toMatch(/attendees: 1\n(.*\n)*.*- id: safety\n/);
    await expect(lead.getByText('liftside import chain-saturday.actual.yaml --into chain-saturday')).toBeVisible();
    expect(amiss).toEqual([]);
    // Behind it: axe itself asks for the style sheets, which a folder refuses.
    expect(await axe(lead)).toEqual([]);
    expect(await axe(room)).toEqual([]);
  } finally {
    await rm(folder, { recursive: true });
  }
});

test('rehearsed from a folder by keys alone, a class that runs late finds ways out: one key takes one, one undoes it', {
  tag: '@long',
}, async ({ page }) => {
  const { folder } = await packed();
  try {
    const address = pathToFileURL(join(folder, 'pages/classes/chain-saturday/present/index.html')).href;
    await page.goto(`${address}?rehearse=60`);
    await expect(page.locator('.ways')).not.toHaveAttribute('data-look-ms', '0', { timeout: 300_000 });
    await page.getByRole('button', { name: 'Begin the class' }).press('Enter');
    await expect(page.locator('.ways button').first()).toBeVisible();
    await page.keyboard.press('1');
    await expect(page.getByRole('button', { name: /^Undo/ })).toBeVisible();
    await page.keyboard.press('u');
    await expect(page.getByRole('button', { name: /^Undo/ })).toHaveCount(0);
    // Nothing of it is written down.
    await page.goto(address);
    await expect(page.getByRole('button', { name: 'Begin the class' })).toBeVisible();
  } finally {
    await rm(folder, { recursive: true });
  }
});
