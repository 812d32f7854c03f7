import { expect, test } from '@playwright/test';

const rows = '.results li';

test('search as one types, with filters, kept in the address', async ({ page }) => {
  await page.goto('steps/');
  const all = await page.locator('.all li').count();
  expect(all).toBeGreaterThanOrEqual(30);

  await page.getByRole('searchbox').fill('rivet');
  await expect(page.getByRole('main').getByRole('status')).toHaveText(/^\d+ found/);
  const found = await page.locator(rows).count();
  expect(found).toBeGreaterThan(0);
  expect(found).toBeLessThan(all);
  expect(page.url()).toContain('q=rivet');
  // Each with a picture of the step, out of the film.
  const still = page.locator(`${rows} .still`).first();
  await expect.poll(() => still.evaluate((image) => (image as HTMLImageElement).naturalWidth)).toBe(480);

  await page.getByRole('combobox', { name: 'Hazard' }).selectOption('caution');
  await expect(page).toHaveURL(/hazard=caution/);
  await expect(page.locator(rows).filter({ hasNotText: 'CAUTION' })).toHaveCount(0);
  for (const row of await page.locator(rows).all()) await expect(row).toContainText('CAUTION');

  await page.getByRole('button', { name: 'Clear' }).click();
  await expect(page.locator('.all')).toBeVisible();
  await expect(page.locator('.results')).toBeHidden();
});

test('a filter alone lists what it holds for', async ({ page }) => {
  await page.goto('steps/');
  await page.getByRole('combobox', { name: 'Tool' }).selectOption({ label: 'Steel rule, 500 mm' });
  await expect(page.getByRole('main').getByRole('status')).toHaveText(/^\d+ found/);
  const titles = await page.locator(`${rows} a`).allTextContents();
  expect(titles).toContain('Find the tight spot');
});

test('a value is found however its unit is typed', async ({ page }) => {
  await page.goto('steps/?q=30+Nm');
  await expect(page.locator(`${rows} a`, { hasText: 'Fit the front sprocket' })).toBeVisible();
  await page.getByRole('searchbox').fill('22.1 ft-lb');
  await expect(page.locator(`${rows} a`, { hasText: 'Fit the front sprocket' })).toBeVisible();
});

test('nothing found is said', async ({ page }) => {
  await page.goto('steps/?q=zeppelin');
  await expect(page.getByRole('main').getByRole('status')).toHaveText('Nothing matches. Try fewer or different words.');
});

test('a value no step cites is found, and one that no spec has is told', async ({ page }) => {
  await page.goto('steps/?q=225+kPa');
  const first = page.locator(rows).first();
  await expect(first).toContainText('Front tyre, cold');
  await expect(first.getByRole('link', { name: 'Front tyre, cold' })).toHaveAttribute('href', /specs\/tarn-420\/#/);
  await page.getByRole('searchbox').fill('300 Nm');
  await expect(page.getByRole('main').getByRole('status')).toHaveText('No spec has 300 Nm.');
  await expect(page.locator(rows)).toHaveCount(0);
});

test('a slip is mended, told, and searched for by one press', async ({ page }) => {
  await page.goto('steps/?q=chian+slack');
  await expect(page.locator(rows).first()).toContainText(/slack/i);
  await page.getByRole('button', { name: 'Did you mean “chain slack”?' }).click();
  await expect(page.getByRole('searchbox')).toHaveValue('chain slack');
  await expect(page.getByRole('button', { name: /Did you mean/ })).toBeHidden();
  await expect(page.locator(rows).first()).toContainText(/slack/i);
});
