import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from '@playwright/test';

test('on a phone the spec table is jumped through, narrowed, and critical values come first', async ({ page }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto('specs/tarn-420/');
  expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThan(8000);
  const rows = page.locator('[data-kind=torque] tbody tr:not(.former)');
  const critical = await rows.evaluateAll((all) =>
    all.map((row) => (row as HTMLElement).dataset.critical !== undefined),
  );
  // The demo's table (invented): critical torques, and such as are not.
  expect(critical[0]).toBe(true);
  expect(critical.at(-1)).toBe(false);
  expect(critical.lastIndexOf(true)).toBeLessThan(critical.indexOf(false));

  await page
    .getByRole('navigation', { name: 'Kinds' })
    .getByRole('link', { name: /^Pressure/ })
    .click();
  await expect(page.getByRole('heading', { name: 'Pressure' })).toBeInViewport();
  // What is jumped to is not under the bar.
  const { top, bar } = await page.evaluate(() => ({
    top: document.querySelector('#kind-pressure')?.getBoundingClientRect().top ?? 0,
    bar: document.querySelector('.spec-finder')?.getBoundingClientRect().bottom ?? 0,
  }));
  expect(top).toBeGreaterThanOrEqual(bar);

  const shown = page.locator('tbody tr:not(.former)').filter({ visible: true });
  const all = await shown.count();
  await page.getByRole('searchbox', { name: 'Narrow to' }).fill('axle nut');
  await expect(shown).toHaveCount(2);
  // Where a value differs by year, the year comes first.
  const [years, value] = await Promise.all(
    ['.applies', '.value'].map((each) => shown.first().locator(each).boundingBox()),
  );
  expect(years?.y ?? Number.NaN).toBeLessThan(value?.y ?? Number.NaN);
  await expect(page.getByText('2 values', { exact: true })).toBeVisible();
  await page.getByRole('searchbox', { name: 'Narrow to' }).fill('flux capacitor');
  await expect(page.getByText('No value fits.')).toBeVisible();
  await page.getByRole('searchbox', { name: 'Narrow to' }).fill('');
  await page.getByLabel('only critical').check();
  expect(await shown.count()).toBe(await page.locator('[data-critical]').count());
  const { violations } = await new AxeBuilder({ page }).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  // Paper leaves nothing out.
  await page.emulateMedia({ media: 'print' });
  await expect(shown).toHaveCount(all);
});
