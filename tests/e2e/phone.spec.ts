import { expect, test } from '@playwright/test';
import { openLesson, playing } from '../support/lesson-page.ts';

test('on a phone the picture stays in sight while the steps go by, and a tap plays', async ({ page }) => {
  await openLesson(page, 'lessons/chain/');
  const step = page.locator('a[data-part="read-the-teeth"]');
  await step.scrollIntoViewIfNeeded();
  await step.tap();
  await playing(page, true);
  await expect(page.locator('.decks')).toBeInViewport();
  await expect(page.locator('[aria-current=step]')).toContainText('Read the teeth');
});

test('steps out of sight are laid out while nothing else is to do', async ({ page }) => {
  await page.goto('lessons/chain/');
  await expect(page.locator('.step:not(.laid-out)')).toHaveCount(0);
  const last = page.locator('.step').last();
  expect(await last.evaluate((step) => getComputedStyle(step).contentVisibility)).toBe('visible');
});

test('on a phone that never has nothing to do each step is there when it is tapped for', async ({ page }) => {
  await page.addInitScript(() => Object.assign(globalThis, { requestIdleCallback: () => 0 }));
  await page.goto('lessons/chain/');
  const last = page.locator('.step').last();
  expect(await last.evaluate((step) => getComputedStyle(step).contentVisibility)).toBe('auto');
  await page.locator('.contents a').last().tap();
  const heading = page.locator('.chapter').last().locator('h2');
  await expect(heading).toBeInViewport();
  await last.scrollIntoViewIfNeeded();
  await expect(last.locator('p').last()).toBeVisible();
});

test('whatever is to be tapped is large enough for a gloved finger', async ({ page }) => {
  await openLesson(page, 'lessons/chain/');
  const small = await page
    .locator('.step-keys button, .vjs-control-bar button, a.part, .head nav a')
    .evaluateAll((all) =>
      all
        .filter((each) => (each as HTMLElement).offsetParent !== null)
        .map((each) => ({ name: each.textContent?.trim(), box: each.getBoundingClientRect() }))
        .filter(({ box }) => box.width < 44 || box.height < 44)
        .map(({ name, box }) => `${name} ${Math.round(box.width)}×${Math.round(box.height)}`),
    );
  expect(small).toEqual([]);
});
