import { expect, type Page } from '@playwright/test';

/** By keys alone: the picture is frozen and a ring drawn on it, then values of another year are shown; the room sees both. */
export async function pointAndShowYear(lead: Page, room: Page, pointed?: string): Promise<void> {
  await lead.keyboard.press('p');
  await lead.keyboard.press('ArrowRight');
  await lead.keyboard.press('Enter');
  await expect(room.locator('.point-layer .ring')).toHaveCount(1);
  if (pointed !== undefined) await lead.screenshot({ path: pointed });
  await lead.keyboard.press('Escape');
  await expect(room.locator('.point-layer')).toHaveCount(0);
  await lead.keyboard.press('y');
  await lead.keyboard.type('2019');
  await lead.keyboard.press('Enter');
  await expect(room.locator('.of-year')).toHaveText('Model year 2019');
  await lead.getByRole('button', { name: 'The lesson’s own' }).press('Enter');
  await expect(room.locator('.of-year')).toHaveCount(0);
}
