import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
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

  // What is said stands there in Spanish too, from the captions of that language.
  await expect(page.locator('.transcript li').first()).toContainText('Nada en esta moto perdona menos');
  await holdsFromRightToLeft(page);

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

/** The page of a lesson with its lines run from right to left, as in Arabic or Hebrew, its film open. */
async function holdsFromRightToLeft(page: Page): Promise<void> {
  const window = page.viewportSize();
  await page.evaluate(() => {
    document.documentElement.dir = 'rtl';
  });
  await page.locator('.curtain .start').click();
  await expect(page.locator('.vjs-play-control')).toBeVisible();
  await page.getByRole('button', { name: 'Más', exact: true }).click();
  for (const width of [390, 1280]) {
    await page.setViewportSize({ width, height: 844 });
    // The time hangs over the end of the bar until the player has put it back within itself.
    await page.locator('.vjs-time-tooltip').evaluateAll((all) => {
      for (const each of all) (each as HTMLElement).style.translate = '-100vw';
    });
    const found = await page.evaluate(() => {
      const wide = document.documentElement.clientWidth;
      const controls = [...document.querySelectorAll('a, button, input, select, summary, [role=slider]')];
      const seen = controls.filter((each) => each.checkVisibility({ visibilityProperty: true, opacityProperty: true }));
      const off = seen.filter((each) => {
        const { left, right, width } = each.getBoundingClientRect();
        return width > 1 && (left < -1 || right > wide + 1);
      });
      const at = (selector: string) => document.querySelector(selector)?.getBoundingClientRect().left ?? Number.NaN;
      const step = document.querySelector('.step');
      return {
        seen: seen.length,
        wider: document.documentElement.scrollWidth - wide,
        off: off.map((each) => each.outerHTML.slice(0, 120)),
        edges: step && [getComputedStyle(step).borderRightWidth, getComputedStyle(step).borderLeftWidth],
        film: [at('.vjs-play-control'), at('.vjs-current-time'), at('.vjs-chapters-button'), at('.full-key')],
      };
    });
    expect(found.seen).toBeGreaterThan(50);
    expect(found.wider).toBe(0);
    expect(found.off.filter((html) => !html.includes('to-content'))).toEqual([]);
    // The thick edge of a step is where its lines begin.
    expect(found.edges).toEqual(['6px', '1px']);
    // A film runs from left to right everywhere, and its keys with it.
    expect(found.film).toEqual(found.film.toSorted((a, b) => a - b));
  }
  if (window) await page.setViewportSize(window);
}
