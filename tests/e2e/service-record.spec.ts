import { readFile } from 'node:fs/promises';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';

const WCAG = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

async function axeIsClean(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).withTags(WCAG).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
}

test('a job is laid out, ticked, measured, noted, kept, saved as a file, deleted, taken in again and printed @long', async ({
  page,
}, info) => {
  await page.clock.setFixedTime(new Date('2027-03-06T10:00:00'));
  await page.goto('lessons/chain/');
  await page.getByText('Words of the trade').click();
  await expect(page.getByRole('definition').filter({ hasText: 'The link that closes a chain' })).toBeVisible();
  await expect(page.getByRole('link', { name: 'Next lesson: Front brake pads and fluid' })).toBeVisible();
  const size = () => page.evaluate(() => Number.parseFloat(getComputedStyle(document.documentElement).fontSize));
  const usual = await size();
  await page.getByRole('button', { name: 'More' }).click();
  await page.getByLabel('Larger text in lessons').check();
  expect(await size()).toBeGreaterThan(usual * 1.1);
  await page.keyboard.press('Escape');
  await page.getByText('Lay out', { exact: true }).click();
  await page.getByText('What can hurt').click();
  // The demo's chain lesson (invented) takes a new bolt for the front sprocket.
  const bolt = page.getByRole('checkbox', { name: 'Front sprocket bolt new each time' });
  await bolt.check();
  await expect(page.locator('[data-laid-out]')).toHaveText(/^1 of \d+ laid out$/);
  const step = page.locator('.step').first();
  await step.getByLabel('Chain, length over twenty pitches').fill('325');
  // The demo's limit: twenty pitches of 15.875 mm and 1.5 % of wear, 322 mm.
  await expect(step.getByText('Out of limits: at most 322 mm.')).toBeVisible();
  await step.getByRole('checkbox').check();
  await step.getByRole('button', { name: 'Note' }).click();
  await step.getByLabel('Note').fill('Worst by the joint.');
  await page.getByLabel('Odometer').fill('12400');
  await page.getByLabel('Done by').fill('Ada');
  await axeIsClean(page);

  await page.reload();
  await expect(step.getByRole('checkbox', { name: 'Done on 2027-03-06' })).toBeChecked();
  await expect(step.getByLabel('Note')).toHaveValue('Worst by the joint.');
  await expect(page.locator('[data-laid-out]')).toHaveText(/^1 of \d+ laid out$/);

  await page.getByRole('region', { name: 'Your record of this job' }).getByRole('link').click();
  const job = page.getByRole('article');
  await expect(job.locator('.title-block')).toHaveText(/Tarn 420.*2027-03-06.*12400 km.*Ada/s);
  const row = job.getByRole('row').filter({ hasText: '1.1' });
  await expect(row).toContainText('325 mm, OUT OF LIMITS (at most 322 mm)');
  await expect(row).toContainText('Worst by the joint.');
  await axeIsClean(page);

  const saved = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as a file' }).click();
  const file = info.outputPath('record.json');
  await (await saved).saveAs(file);
  expect(JSON.parse(await readFile(file, 'utf8')).jobs[0].doneBy).toBe('Ada');

  await job.getByRole('button', { name: 'Delete' }).click();
  await page.getByRole('button', { name: 'Delete it' }).click();
  await expect(job).toHaveCount(0);
  await page
    .getByLabel('Take in a file')
    .setInputFiles({ name: 'x.json', mimeType: 'application/json', buffer: Buffer.from('{}') });
  await expect(page.getByText('something else, not a service record')).toBeVisible();
  await page.getByLabel('Take in a file').setInputFiles(file);
  await expect(page.getByText('Taken in: 1 job.')).toBeVisible();
  await expect(row).toContainText('OUT OF LIMITS');

  await job.getByRole('button', { name: 'Close this job' }).click();
  await page.getByRole('button', { name: 'Close it' }).click();
  await expect(job).toContainText('closed on 2027-03-06');
  await page.emulateMedia({ media: 'print' });
  await expect(row).toBeVisible();
  await expect(page.getByRole('button').filter({ visible: true })).toHaveCount(0);
  await page.emulateMedia({ media: 'screen' });

  // The lesson begins anew; what was closed stays.
  await page.goto('lessons/chain/');
  await expect(step.getByRole('checkbox', { name: 'Done', exact: true })).not.toBeChecked();
});
