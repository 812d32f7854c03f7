import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

// Values and bulletins are the demo's, invented.
const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const former = (page: Page, title: string) => page.locator('.former').filter({ hasText: title });

test('a former value stands under its row, closed, and says until when it held and what replaced it', async ({
  page,
}) => {
  await page.goto('specs/tarn-420/#rear-sprocket-nut');
  const row = former(page, 'Rear sprocket nut');
  const old = row.getByText('44 ± 4 N·m');
  await expect(page.locator('#rear-sprocket-nut')).toContainText('50 ± 4 N·m');
  await expect(page.locator('#rear-sprocket-nut + .former')).toHaveCount(1);
  await expect(page.locator('#rear-sprocket-nut')).not.toContainText('44');
  const sign = () => row.locator('summary').evaluate((summary) => getComputedStyle(summary, '::before').transform);
  await expect(old).toBeHidden();
  expect(await sign()).toBe('none');
  await row.locator('summary').press('Enter');
  await expect(old).toBeVisible();
  // Points down: turned by a right angle.
  expect(await sign()).toBe('matrix(0, 1, -1, 0, 0, 0)');
  await expect(row.getByRole('listitem')).toHaveText(
    'until 2020-08-31: 44 ± 4 N·m (32.5 ± 2.9 lbf·ft), replaced by Service manual second edition',
  );
  // No figure of the past stands outside what is struck through, but its day and what replaced it.
  await expect(row.locator('s')).toHaveText('44 ± 4 N·m (32.5 ± 2.9 lbf·ft)');
  for (const struck of await page.locator('.former s').all())
    expect(await struck.evaluate((part) => getComputedStyle(part).textDecorationLine)).toBe('line-through');
  await expect(page.getByText('Earlier value, no longer valid, of: Rear sprocket nut')).toHaveCount(1);
});

for (const colorScheme of ['light', 'dark'] as const)
  test(`opened, former values pass axe and no page grows wider, ${colorScheme}`, {
    tag: '@long',
  }, async ({ page }) => {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    for (const width of [390, 1280, 1920]) {
      await page.setViewportSize({ width, height: 900 });
      await page.goto('specs/tarn-420/');
      for (const summary of await page.locator('.former summary').all()) await summary.click();
      expect(await page.locator('.former li').filter({ visible: true }).count()).toBeGreaterThanOrEqual(4);
      const { violations } = await new AxeBuilder({ page }).withTags(WCAG).analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
      ).toBe(0);
    }
  });

test('on paper it is open and struck through', async ({ page }) => {
  await page.goto('specs/tarn-420/');
  const old = former(page, 'Rear sprocket nut').locator('li');
  const seen = () => old.evaluate((item) => item.checkVisibility() && item.getBoundingClientRect().height > 0);
  expect(await seen()).toBe(false);
  await page.emulateMedia({ media: 'print' });
  expect(await seen()).toBe(true);
});

test('with a machine named, former values of other machines are hidden with their rows', { tag: '@long' }, async ({
  page,
}) => {
  const year = page.getByRole('form', { name: 'My machine' }).getByLabel('Year');
  await page.goto('specs/tarn-420/');
  const axle = former(page, 'Rear axle nut');
  for (const [named, shown] of [
    ['any', true],
    ['2020', true],
    ['2024', false],
  ] as const) {
    await page.getByRole('button', { name: /^(Name yours|Change)$/ }).click();
    await year.selectOption(named);
    await page.getByRole('button', { name: 'Done' }).click();
    await expect(axle.locator('summary'), named).toBeVisible({ visible: shown });
    await expect(page.locator('#rear-axle-nut'), named).toBeVisible({ visible: shown });
  }
  // A lesson's value leads to its own row, not to that of other years, which is hidden.
  await page.goto('lessons/chain/');
  const value = page.locator('#tighten-the-axle-nut .dimension').filter({ hasText: '98 ± 5 N·m', visible: true });
  await value.first().click();
  const target = page.locator('tr:target');
  await expect(target).toBeVisible();
  await expect(target).toContainText('98 ± 5 N·m');
  await expect(target).toBeInViewport();
});
