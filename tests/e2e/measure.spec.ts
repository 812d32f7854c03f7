import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

const card = (page: Page, name: string) => page.getByRole('region', { name });
const answer = (page: Page, name: string) => card(page, name).getByRole('status');

/** The keyboard's way to a control: Tab until it has the focus. */
async function tabTo(page: Page, name: string): Promise<void> {
  for (let i = 0; i < 80; i++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const on = document.activeElement;
      return on instanceof HTMLInputElement || on instanceof HTMLSelectElement
        ? [...(on.labels ?? [])].map((label) => label.firstChild?.textContent?.trim()).join(' ')
        : on instanceof HTMLButtonElement
          ? (on.textContent ?? '').trim()
          : '';
    });
    if (at === name) return;
  }
  throw new Error(`${name} is not reached by Tab`);
}

async function axeIsClean(page: Page): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
    const { violations } = await new AxeBuilder({ page }).withTags(WCAG).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  }
}

/** Names the year of the shop's only machine. */
async function myYear(page: Page, year: string): Promise<void> {
  await page.getByRole('button', { name: /^(Name yours|Change)$/ }).click();
  await page.getByRole('form', { name: 'My machine' }).getByLabel('Year').selectOption(year);
  await page.getByRole('button', { name: 'Done' }).click();
}

test('a reading is in, near or out of limits, by the spec itself', async ({ page }) => {
  await page.goto('measure/');
  // Limits of the demo's table (invented): pad lining at least 1.5 mm, chain slack 25 to 35 mm.
  for (const [what, reading, says] of [
    [/brake pad lining/, '4', /^In limits\. .*at least 1\.5 mm/],
    [/brake pad lining/, '1.6', /^In limits, but only/],
    [/brake pad lining/, '1.5', /^In limits, but only/],
    [/brake pad lining/, '1.49', /^Out of limits/],
    [/Chain slack/, '30', /^In limits\. .*25–35 mm/],
    [/Chain slack/, '35', /^In limits, but only/],
    [/Chain slack/, '35.1', /^Out of limits/],
    [/twenty pitches/, '322.5', /^Out of limits/],
  ] as const) {
    const select = card(page, 'A reading').getByLabel('What');
    const label = await select.locator('option').filter({ hasText: what }).first().textContent();
    await select.selectOption({ label: label ?? '' });
    await card(page, 'A reading').getByLabel('Reading').fill(reading);
    await expect(answer(page, 'A reading'), `${what} ${reading}`).toHaveText(says);
    await expect(page.locator('.scale-reading')).toBeVisible();
  }
  await card(page, 'A reading').getByLabel('Reading').fill('');
  await expect(answer(page, 'A reading')).toHaveText('');
});

test('an interval is due by distance or by day, whichever comes first', async ({ page }) => {
  await page.clock.setFixedTime(new Date('2027-03-01T12:00:00'));
  await page.goto('measure/');
  const interval = card(page, 'An interval');
  // The demo's brake fluid (invented): every 20 000 km or 2 years.
  await interval.getByLabel('What').selectOption('Change the brake fluid');
  const fill = async (then: string, since: string, now: string) => {
    await interval.getByLabel('Odometer last time').fill(then);
    await interval.getByLabel('Day last time').fill(since);
    await interval.getByLabel('Odometer today').fill(now);
  };
  await fill('1000', '2026-03-01', '5000');
  await expect(answer(page, 'An interval')).toHaveText('Not due yet: 16000 km left, due on 2028-03-01.');
  await fill('1000', '2024-02-29', '5000');
  await expect(answer(page, 'An interval')).toHaveText('Overdue since 2026-02-28 (16000 km left).');
  await fill('1000', '2026-03-01', '21500');
  await expect(answer(page, 'An interval')).toHaveText('Overdue by 500 km (due on 2028-03-01).');
  // Kept in this browser, for the row it was written down for.
  await page.reload();
  await interval.getByLabel('What').selectOption('Change the brake fluid');
  await expect(interval.getByLabel('Odometer last time')).toHaveValue('1000');
  await expect(interval.getByLabel('Day last time')).toHaveValue('2026-03-01');
});

test('a date code is read as 49 CFR 574.5 lays it down', async ({ page }) => {
  await page.clock.setFixedTime(new Date('2027-03-01T12:00:00'));
  await page.goto('measure/');
  const code = card(page, 'A tyre’s date code').getByLabel('Code');
  // Week 1 is the first full week, Sunday to Saturday: of 2022, 2 to 8 January; week 9 is 27 February to 5 March.
  for (const [written, says] of [
    ['0122', 'Made in week 1 of 2022, 2022-01-02 to 2022-01-08.'],
    ['0922', 'Made in week 9 of 2022, 2022-02-27 to 2022-03-05.'],
    ['5422', 'there is no week 54; weeks go from 01 to 53.'],
    ['4099', 'Week 40 of 2099 has not come yet; read the code again.'],
    ['408', /three digits: made before 2000/],
  ] as const) {
    await code.fill(written);
    await expect(answer(page, 'A tyre’s date code')).toHaveText(says);
  }
});

test('the cards and the machine are worked by keyboard alone, and axe finds nothing in any state', {
  tag: '@long',
}, async ({ page }) => {
  await page.goto('measure/');
  await axeIsClean(page);
  await tabTo(page, 'What');
  await page.keyboard.type('Front brake pad');
  await tabTo(page, 'Reading');
  await page.keyboard.type('0.9');
  await expect(answer(page, 'A reading')).toHaveText(/^Out of limits/);
  await tabTo(page, 'Code');
  await page.keyboard.type('0922');
  await expect(answer(page, 'A tyre’s date code')).toContainText('week 9 of 2022');
  await tabTo(page, 'Name yours');
  await page.keyboard.press('Enter');
  await tabTo(page, 'Year');
  await page.keyboard.type('2020');
  await expect(page.getByText('Showing only values for a Tarn 420 of 2020.')).toBeVisible();
  await axeIsClean(page);
  await page.keyboard.press('Escape');
  await expect(page.getByRole('button', { name: 'Change' })).toBeFocused();
  await page.reload();
  await expect(page.getByText('Your machine: Tarn 420, 2020')).toBeVisible();
});

test('the chosen machine narrows specs, tables, papers and search results to its own values', { tag: '@long' }, async ({
  page,
}) => {
  // The demo's rear axle nut (invented): 90 ± 5 N·m to 2021, 98 ± 5 N·m from 2022.
  const [early, late] = ['90 ± 5 N·m', '98 ± 5 N·m'];
  const places = [
    ['lessons/chain/', '#tighten-the-axle-nut .spec-rows'],
    ['specs/tarn-420/', 'tr'],
    ['classes/chain-saturday/handout/', '.handout-spec'],
    ['classes/chain-saturday/job-breakdown/', '.details'],
    ['steps/', '.all .row-value'],
    ['steps/?q=axle+nut', '.results .row-value'],
    ['measure/', ''],
  ] as const;
  const visible = (value: string, within: string) => page.locator(within).filter({ hasText: value }).getByText(value);
  for (const [address, within] of places.filter(([, part]) => part !== '')) {
    await page.goto(address);
    // Unknown: all of them, labelled.
    for (const [value, years] of [
      [early, '2019–2021'],
      [late, '2022–2025'],
    ] as const) {
      await expect(visible(value, within).first(), address).toBeVisible();
      await expect(page.locator(within).filter({ hasText: value }).first()).toContainText(years);
    }
    for (const [year, own, other] of [
      ['2020', early, late],
      ['2024', late, early],
    ] as const) {
      await myYear(page, year);
      await expect(visible(own, within).first(), `${address} ${year}`).toBeVisible();
      await expect(visible(other, within).filter({ visible: true }), `${address} ${year}`).toHaveCount(0);
      // No title stands without its value, no mark between one value and nothing.
      await expect(page.locator('.between-rows').filter({ visible: true })).toHaveCount(0);
      await expect(page.locator('.no-own-row').filter({ visible: true })).toHaveCount(0);
    }
    await page.goto('about:blank');
    await page.goto(address);
    await expect(visible(late, within).first(), `${address} kept`).toBeVisible();
    await expect(visible(early, within).filter({ visible: true })).toHaveCount(0);
    await axeIsClean(page);
    await myYear(page, '');
    await expect(visible(early, within).first()).toBeVisible();
  }

  // The first value that differs asks; a sheet says what it leaves out.
  await page.goto('lessons/chain/');
  // Rows that stand on lines of their own end of themselves: no comma is left over after the question.
  const comma = page.locator('.spec-rows.several + .ask-machine + .mark-after');
  await expect(comma).toHaveCount(1);
  await expect(comma).toBeHidden();
  await page.getByRole('button', { name: 'Which year is your Tarn 420?' }).click();
  await page.getByRole('form', { name: 'My machine' }).getByLabel('Year').selectOption('2020');
  await page.getByRole('button', { name: 'Done' }).click();
  await expect(page.getByRole('button', { name: 'Which year is your Tarn 420?' })).toHaveCount(0);
  await expect(page.locator('.title-block')).toContainText('2020 (of 2019–2025)');
  await page.emulateMedia({ media: 'print' });
  const printed = page.locator('.own-machine-print');
  await expect(printed).toContainText(/^Printed for a Tarn 420, 2020 only: one value for others left out\./);
  await page.emulateMedia({ media: 'screen' });
  await expect(printed).toBeHidden();
  await page.goto('specs/tarn-420/');
  await expect(page.locator('.title-block')).toContainText(/Values\s*\d+ \(of \d+\)/);

  // The words shown of a found step hold no value of anybody's.
  await page.goto('steps/?q=98+Nm');
  await expect(page.locator('.results a', { hasText: 'Tighten the axle nut' })).toBeVisible();
  await expect(page.locator('.found-words', { hasText: /\bN·m\b|\bNm\b/ })).toHaveCount(0);
});
