import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from '@playwright/test';
import { BASE } from '../support/serve-demo.ts';

// The demo's brake lesson is there in Spanish, its chain lesson is not.
test('the site in Spanish: from a page to the same page, its lesson, a search and a reading', async ({ page }) => {
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  const calm = async (state: string) => {
    const { violations } = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze();
    expect(violations.map(({ id, nodes }) => `${state} ${id}: ${nodes.map(({ html }) => html).join(' ')}`)).toEqual([]);
  };

  await page.goto(`${BASE}lessons/front-brake/`);
  await expect(page.locator('link[hreflang=es]')).toHaveAttribute('href', /\/es\/lessons\/front-brake\/$/);
  await page.getByRole('link', { name: 'Español' }).click();
  await expect(page.locator('html')).toHaveAttribute('lang', 'es');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Pastillas y líquido del freno delantero');
  // Steps keep their ids, so that a link leads to the same step in each language.
  await expect(page.locator('#change-the-pads h2')).toContainText('Cambie las pastillas');
  // A value keeps its figures; only its decimal sign is that of the language.
  const value = page.locator('#measure-the-disc .spec').first();
  await expect(value).toContainText(/\d,\d+ mm/);
  await expect(page.locator('.untranslated')).toHaveCount(0);
  const ticks = page.locator('[data-own-work="cover-the-paint"] [data-tick]');
  await ticks.check();
  await expect(page.locator('[data-progress]')).toHaveText(/^1 de \d+ pasos marcados\.$/);
  await calm('lesson');

  await page.goto(`${BASE}es/lessons/chain/`);
  await expect(page.locator('.untranslated')).toHaveText('Esta lección no está traducida: aquí está en inglés.');
  await expect(page.getByRole('heading', { level: 1 })).toHaveAttribute('lang', 'en');
  await calm('lesson that is not translated');

  await page.goto(`${BASE}es/steps/?q=pastillas`);
  await expect(page.locator('.results a').first()).toBeVisible();
  await expect(page.locator('.found')).toContainText('Resultados');
  await expect(page.locator('.results')).toContainText('pastillas');
  expect(errors).toEqual([]);
});
