import { expect, test } from '@playwright/test';

test('without scripts a plain video and links to its moments remain', async ({ page, request }) => {
  await page.goto('lessons/chain/');
  const videos = page.locator('lesson-player video[controls]');
  await expect(videos).toHaveCount(2);
  await expect(videos.first()).toHaveAttribute('poster', /footage\/stills\/chain\.jpg$/);
  for (const video of await videos.all()) await expect(video.locator('track[kind=captions]')).toHaveCount(1);
  const steps = page.locator('.step a.part-film');
  expect(await steps.count()).toBeGreaterThanOrEqual(20);
  const links = await steps.evaluateAll((all) => all.map((link) => (link as HTMLAnchorElement).href));
  for (const link of links) expect(link).toMatch(/\/footage\/media\/chain-[12]\.mp4#t=[\d.]+,[\d.]+$/);
  expect(links.some((link) => link.includes('chain-1'))).toBe(true);
  expect(links.some((link) => link.includes('chain-2'))).toBe(true);
  const part = await request.get(links[0] ?? '', { headers: { range: 'bytes=0-99' } });
  expect(part.status()).toBe(206);
  expect((await part.body()).length).toBe(100);
  await expect(page.getByText('Support the frame').or(page.locator('.signal.warning')).first()).toBeVisible();
  await expect(page.locator('.step .dimension').first()).toBeVisible();
  await expect(page.locator('.step-keys')).toBeHidden();
});

test('without scripts the step index lists every step', async ({ page }) => {
  await page.goto('steps/');
  expect(await page.locator('.step-rows:visible li').count()).toBeGreaterThanOrEqual(30);
  await expect(page.getByRole('searchbox')).toBeHidden();
});
