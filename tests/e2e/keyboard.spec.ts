import { expect, test } from '@playwright/test';
import { openLesson, playing, see } from '../support/lesson-page.ts';

test('the lesson works by keyboard alone', async ({ page }) => {
  await openLesson(page, 'lessons/chain/');
  await page.keyboard.press('Tab');
  await expect(page.getByRole('link', { name: 'To the content' })).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(page.locator('#content')).toBeFocused();

  // Every control of the player is reached by Tab, in order, each with a name.
  const names: string[] = [];
  for (let i = 0; i < 16; i++) {
    await page.keyboard.press('Tab');
    names.push(
      await page.evaluate(() => {
        const on = document.activeElement;
        return on?.getAttribute('aria-label') ?? on?.getAttribute('title') ?? on?.textContent?.trim() ?? '';
      }),
    );
  }
  expect(names.every((name) => name !== '')).toBe(true);
  for (const wanted of [
    'Play',
    'Progress Bar',
    'Chapters',
    'Full screen',
    'Previous step',
    'Again',
    'Next step',
    'Keys',
  ])
    expect(names.join('|')).toContain(wanted);

  const step = page.locator('a[data-part="read-the-teeth"]');
  await step.focus();
  await page.keyboard.press('Enter');
  await playing(page, true);
  await expect(page.locator('[aria-current=step]')).toContainText('Read the teeth');
});

test('keys act in the player, and elsewhere only when asked to', async ({ page }) => {
  await openLesson(page, 'lessons/chain/#find-the-tight-spot');
  const { time } = await see(page);
  const moved = async () => (await see(page)).time - time;

  // Focus outside the player: a single letter does nothing (WCAG 2.1.4).
  await page.locator('.plate').focus();
  await page.keyboard.press('n');
  await expect(page.locator('[aria-current=step]')).toContainText('Find the tight spot');

  await page.getByRole('button', { name: 'Keys' }).focus();
  await page.keyboard.press('ArrowRight');
  await expect.poll(moved).toBeCloseTo(5, 1);
  await page.keyboard.press('ArrowLeft');
  await expect.poll(moved).toBeCloseTo(0, 1);
  await page.keyboard.press('n');
  await expect(page.locator('[aria-current=step]')).toContainText('Read the teeth');
  await page.keyboard.press('p');
  await expect(page.locator('[aria-current=step]')).toContainText('Find the tight spot');

  await page.keyboard.press('?');
  const help = page.getByRole('dialog', { name: 'Keys' });
  await expect(help).toBeVisible();
  await help.getByLabel(/anywhere on the page/).check();
  await page.keyboard.press('Escape');
  await expect(help).toBeHidden();
  await expect(page.getByRole('button', { name: 'Keys' })).toBeFocused();

  await page.locator('.plate').focus();
  await page.keyboard.press('n');
  await expect(page.locator('[aria-current=step]')).toContainText('Read the teeth');
});

test('arrow up and down go by one frame', async ({ page }) => {
  await openLesson(page, 'lessons/chain/#find-the-tight-spot');
  await expect.poll(async () => (await see(page)).frame).toBeDefined();
  const { frame } = await see(page);
  await page.getByRole('button', { name: 'Keys' }).focus();
  for (const [key, places] of [
    ['ArrowUp', 1],
    ['ArrowUp', 2],
    ['ArrowDown', 1],
    ['ArrowDown', 0],
  ] as const) {
    await page.keyboard.press(key);
    await expect.poll(async () => (await see(page)).frame! - frame!).toBe(places);
  }
});
