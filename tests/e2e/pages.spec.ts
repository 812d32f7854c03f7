import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { HtmlValidate } from 'html-validate';
import { builtPages } from '../support/built-pages.ts';
import { openLesson } from '../support/lesson-page.ts';
import { watchPolicy } from '../support/policy-watch.ts';

const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

// In three parts, so that none takes long on a slow machine.
for (const part of [0, 1, 2])
  test(`each page, opened once: axe finds nothing, it asks no other server, breaks no policy, and is no wider than its window, part ${part + 1}`, async ({
    page,
    context,
  }) => {
    const forbidden = await watchPolicy(context);
    const foreign: string[] = [];
    const root = process.env.LIFTSIDE_TEST_ADDRESS ?? '';
    page.on('request', (request) => {
      if (!request.url().startsWith(root) && !request.url().startsWith('data:')) foreign.push(request.url());
    });
    await page.emulateMedia({ colorScheme: 'light', reducedMotion: 'reduce' });
    expect(builtPages().length).toBeGreaterThanOrEqual(13);
    for (const address of builtPages().filter((_, index) => index % 3 === part)) {
      await page.setViewportSize({ width: 1280, height: 800 });
      // With its player opened, so that what it holds is looked at too.
      if (/^lessons\/[^/]+\/$/.test(address)) await openLesson(page, address);
      else await page.goto(address);
      expect(await violations(new AxeBuilder({ page }).withTags(WCAG), address)).toEqual([]);
      for (const width of [320, 390, 1280, 1920]) {
        await page.setViewportSize({ width, height: 800 });
        const over = await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
        expect(`${address} at ${width}: ${over}`).toBe(`${address} at ${width}: 0`);
      }
      if (/^lessons\/|handout/.test(address)) await expectCaution(page);
    }
    expect(foreign).toEqual([]);
    expect(forbidden).toEqual([]);
  });

/** The words of caution, and that the shop is invented. */
async function expectCaution(page: Page): Promise<void> {
  const words = page.getByRole('note', { name: 'Before you start' });
  await expect(words).toContainText('service manual for the exact model and year decides');
  await expect(words).toContainText('Local law and licensed practice come first');
  await expect(words).toContainText('take the machine to a shop');
  await expect(page.locator('.invented')).toContainText('Invented values');
}

async function violations(axe: AxeBuilder, address: string): Promise<string[]> {
  const found = await axe.analyze();
  return found.violations.map(({ id, nodes }) => `${address} ${id}: ${nodes[0]?.html} ${nodes[0]?.failureSummary}`);
}

// By night a page is the same but for its colours.
test('colours by night hold on every page', { tag: '@long' }, async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'dark', reducedMotion: 'reduce' });
  for (const address of builtPages()) {
    if (/^lessons\/[^/]+\/$/.test(address)) await openLesson(page, address);
    else await page.goto(address);
    const axe = new AxeBuilder({ page }).withRules(['color-contrast', 'link-in-text-block']);
    expect(await violations(axe, address)).toEqual([]);
  }
});

test('the key help has no violation either', async ({ page }) => {
  await page.goto('lessons/chain/');
  await page.locator('lesson-player.ready').waitFor();
  await page.getByRole('button', { name: 'Keys' }).click();
  const { violations } = await new AxeBuilder({ page }).include('.key-help').withTags(WCAG).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
});

test('every link inside the site leads to a page, file or place that is there', async ({ request }) => {
  const site = process.env.LIFTSIDE_TEST_SITE ?? '';
  const root = new URL(process.env.LIFTSIDE_TEST_ADDRESS ?? '');
  const files = new Map(
    builtPages().map((address) => [
      address,
      readFileSync(join(site, address.replace(/(^|\/)$/, '$1index.html')), 'utf8'),
    ]),
  );
  const asked = new Map<string, number>();
  const broken: string[] = [];
  let count = 0;
  for (const [address, html] of files)
    for (const [, attribute] of html.matchAll(/\s(?:href|src)="([^"]*)"/g)) {
      const link = new URL((attribute ?? '').replaceAll('&amp;', '&'), new URL(address, root));
      if (link.origin !== root.origin) continue;
      count++;
      if (!link.pathname.startsWith(root.pathname)) {
        broken.push(`${address}: ${attribute} leads out of the site`);
        continue;
      }
      const path = decodeURI(link.pathname.slice(root.pathname.length));
      if (!asked.has(path)) asked.set(path, (await request.head(path)).status());
      if (asked.get(path) !== 200) broken.push(`${address}: ${attribute}`);
      const place = decodeURIComponent(link.hash.slice(1));
      if (place && !place.startsWith('t=') && !files.get(path)?.includes(` id="${place}"`))
        broken.push(`${address}: no ${attribute}`);
    }
  expect(broken).toEqual([]);
  expect(count).toBeGreaterThan(200);
});

test('the pages are sound HTML', async () => {
  const site = process.env.LIFTSIDE_TEST_SITE ?? '';
  const judge = new HtmlValidate({
    extends: ['html-validate:recommended'],
    rules: {
      // Astro writes the short, equally valid form of each.
      'doctype-style': 'off',
      'void-style': 'off',
      'no-trailing-whitespace': 'off',
      'attribute-boolean-style': 'off',
      // A custom element cannot be a native one as well, and my-machine is a region.
      'prefer-native-element': ['error', { exclude: ['region'] }],
      // Forms that act as they are filled in have nothing to submit; they are shown only where scripts run.
      'wcag/h32': 'off',
    },
  });
  const told: string[] = [];
  for (const address of builtPages()) {
    const { results } = await judge.validateString(
      readFileSync(join(site, address.replace(/(^|\/)$/, '$1index.html')), 'utf8'),
    );
    for (const { messages } of results)
      for (const { ruleId, message, line, column } of messages)
        told.push(`${address}:${line}:${column} ${ruleId}: ${message}`);
  }
  expect(told).toEqual([]);
});
