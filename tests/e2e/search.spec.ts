import { expect, test } from '@playwright/test';

const rows = '.results li';

test('search as one types, with filters, kept in the address', async ({ page }) => {
  await page.goto('steps/');
  const all = await page.locator('.all li').count();
  expect(all).toBeGreaterThanOrEqual(30);

  await page.getByRole('searchbox').fill('rivet');
  await expect(page.getByRole('main').getByRole('status')).toHaveText(/^\d+ steps?/);
  const found = await page.locator(rows).count();
  expect(found).toBeGreaterThan(0);
  expect(found).toBeLessThan(all);
  expect(page.url()).toContain('q=rivet');

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
  await expect(page.getByRole('main').getByRole('status')).toHaveText(/^\d+ steps?/);
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
  await expect(page.getByRole('main').getByRole('status')).toHaveText('No step matches. Fewer or other words may.');
});
