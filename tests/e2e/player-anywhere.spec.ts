import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';
import { openLesson, playing, see } from '../support/lesson-page.ts';
import { CONTENT } from '../support/serve-demo.ts';

test('nothing of the film is loaded before somebody wants to see it', async ({ page }) => {
  const asked: string[] = [];
  page.on('request', (request) => /\.mp4/.test(request.url()) && asked.push(request.url()));
  await page.goto('lessons/chain/', { waitUntil: 'networkidle' });
  await page.locator('lesson-player.ready').waitFor();
  expect(asked).toEqual([]);
  await page.locator('.start').click();
  await playing(page, true);
  expect(asked.length).toBeGreaterThan(0);
});

test('keys act while the focus is in the bar; Space and K pause from anywhere while it plays', async ({ page }) => {
  await openLesson(page, 'lessons/chain/');
  await page.getByRole('button', { name: 'Chapters' }).focus();
  await page.keyboard.press('n');
  await expect(page.locator('[aria-current=step]')).toContainText('Measure the chain');
  await page.locator('.vjs-play-control').click();
  await playing(page, true);
  await page.evaluate(() => (document.activeElement as HTMLElement).blur());
  const top = await page.evaluate(() => scrollY);
  await page.keyboard.press('Space');
  await playing(page, false);
  expect(await page.evaluate(() => scrollY)).toBe(top);
  await page.locator('.vjs-play-control').click();
  await playing(page, true);
  await page.evaluate(() => (document.activeElement as HTMLElement).blur());
  await page.keyboard.press('k');
  await playing(page, false);
  // In a field they are letters.
  await page.locator('.transcript summary').click();
  const field = page.locator('.transcript input');
  await field.fill('chain');
  await field.press('k');
  await expect(field).toHaveValue('chaink');
});

test('opening the player keeps the focus that was on its curtain', async ({ page }) => {
  await page.goto('lessons/chain/');
  await page.locator('lesson-player.ready').waitFor();
  await page.locator('.start').focus();
  await page.keyboard.press('Enter');
  await playing(page, true);
  await expect(page.locator('.vjs-play-control')).toBeFocused();
});

test('over the whole screen: keys, step keys, warnings, values and captions are there', async ({ page }) => {
  await openLesson(page, 'lessons/chain/#measure-the-chain-over-twenty-pitches');
  await page.locator('.full-key').click();
  await expect(page.locator('.stage')).toHaveClass(/filling/);
  await page.evaluate(() => (document.activeElement as HTMLElement).blur());
  await page.keyboard.press('c');
  const card = page.locator('.stage .card:visible');
  await expect(card).toContainText('Measure the chain');
  await expect(card.locator('.signal-tag').first()).toBeVisible();
  await expect(card.locator('.dimension').first()).toBeVisible();
  for (const name of ['Previous step', 'Again', 'Next step'])
    await expect(page.getByRole('button', { name })).toBeInViewport({ ratio: 1 });
  const edge = (selector: string, side: 'top' | 'bottom') =>
    page.locator(selector).evaluate((box, at) => box.getBoundingClientRect()[at], side);
  await expect
    .poll(async () => (await edge('.vjs-text-track-display', 'bottom')) - (await edge('.vjs-control-bar', 'top')))
    .toBeLessThanOrEqual(1);
  await page.keyboard.press('n');
  await expect(card).toContainText('Find the tight spot');
  await page.keyboard.press('f');
  await expect(page.locator('.stage')).not.toHaveClass(/filling/);
  await expect(page.locator('.cards .card:visible')).toContainText('Find the tight spot');
});

for (const [width, height] of [
  [390, 844],
  [1280, 800],
  [1920, 1080],
] as const)
  test(`menus of the player stay on a screen of ${width} × ${height}`, {
    tag: width === 390 ? '@quick' : '@long',
  }, async ({ page }) => {
    await page.setViewportSize({ width, height });
    await openLesson(page, 'lessons/chain/');
    for (const name of ['Chapters', 'Captions']) {
      await page.getByRole('button', { name, exact: true }).click();
      const menu = page.locator('.vjs-menu.vjs-lock-showing .vjs-menu-content');
      await expect(menu).toBeVisible();
      const box = (await menu.boundingBox())!;
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.y).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width).toBeLessThanOrEqual(width);
      await page.keyboard.press('Escape');
      await expect(menu).toBeHidden();
    }
  });

test('on a phone held sideways a small picture stays while the steps go by', async ({ page }) => {
  await page.setViewportSize({ width: 844, height: 390 });
  await openLesson(page, 'lessons/chain/#read-the-teeth');
  await page.locator('#read-the-teeth').scrollIntoViewIfNeeded();
  await page.evaluate(() => document.getElementById('read-the-teeth')!.scrollIntoView());
  await expect(page.locator('.picture')).toHaveClass(/apart/);
  await expect(page.locator('.decks')).toBeInViewport({ ratio: 1 });
});

test('a reader who scrolls away is left alone, and finds a way back @long', async ({ page }) => {
  await openLesson(page, 'lessons/chain/#measure-the-chain-over-twenty-pitches');
  await page.locator('.vjs-play-control').click();
  await playing(page, true);
  await page.locator('#content').hover();
  await page.mouse.move(1000, 400);
  await page.mouse.wheel(0, 5000);
  const back = page.getByRole('button', { name: 'Back to what plays' });
  await expect(back).toBeVisible();
  await back.click();
  await expect(page.locator('.step.current')).toBeInViewport();
  await expect(back).toBeHidden();
});

test('what is said is searched, followed and leads to its moment', async ({ page }) => {
  await openLesson(page, 'lessons/chain/');
  const box = page.locator('.transcript');
  await box.locator('summary').click();
  await box.getByRole('searchbox').fill('finger pull');
  await expect(box.locator('li:visible')).toHaveCount(1);
  await expect(box.getByRole('status')).toHaveText('1 line');
  const line = box.locator('li:visible a');
  const at = Number(await line.getAttribute('data-at'));
  await line.click();
  await expect.poll(async () => Math.abs((await see(page)).time - at)).toBeLessThan(0.2);
  await expect(box.locator('li[aria-current=true]')).toContainText('finger');
});

test('who comes back is offered to go on from where they were @long', async ({ page }) => {
  await openLesson(page, 'lessons/chain/#t=300');
  await page.locator('.vjs-play-control').click();
  await playing(page, true);
  await page.locator('.vjs-play-control').click();
  await playing(page, false);
  await page.goto('about:blank');
  await page.goto('lessons/chain/');
  const resume = page.getByRole('button', { name: /Go on where you were/ });
  await resume.click();
  await playing(page, true);
  expect((await see(page)).time).toBeGreaterThan(299);
});

test('a lost connection is told, keeps the place, and goes on by itself', async ({ page, context }) => {
  await openLesson(page, 'lessons/chain/');
  await context.setOffline(true);
  await page.locator('a[data-part="read-the-teeth"]').click();
  const words = page.locator('.player-words');
  await expect(words).toContainText('Connection lost');
  await context.setOffline(false);
  await playing(page, true);
  await expect(words).toBeEmpty();
  await expect(page.locator('[aria-current=step]')).toContainText('Read the teeth');
});

test('behind a server without byte ranges the film stops with words, never at the wrong place', async ({ page }) => {
  await page.route(/\/footage\/media\/.*\.mp4$/, (route) =>
    route.fulfill({
      status: 200,
      contentType: 'video/mp4',
      body: readFileSync(join(CONTENT, 'media', route.request().url().split('/').at(-1) ?? '')),
    }),
  );
  await page.goto('lessons/chain/#put-it-back-and-set-the-slack');
  const told = page.locator('.vjs-error-display');
  const right = async () => {
    const { time, frame } = await see(page).catch(() => ({ time: 0, frame: undefined }));
    return frame !== undefined && time > 2000;
  };
  // A browser may hold the whole film in memory and jump in it; it must then be at the right place.
  await expect
    .poll(
      async () => ((await told.textContent()) ?? '').includes('cannot jump to a place in a film') || (await right()),
    )
    .toBe(true);
});
