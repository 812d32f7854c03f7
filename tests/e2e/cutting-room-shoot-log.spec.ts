import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { expect, test } from '@playwright/test';
import { discard, drawFootage, roomContent, type Started, startRoom } from '../support/start-room.ts';

const RECORDING = `title: Front brake pads, uncut
files: [{file: media/pads.mp4}]
rate: "25"
start: "01:00:00:00"
`;
const LESSON = `---
title: Front brake pads
recording: pads
machine: tarn-420
---
## Look first

### Measure the pads
Look in from below.

### Put the bike on its stand
On level ground.
`;

let content = '';
let room: Started;
test.beforeAll(async () => {
  content = await roomContent({ 'recordings/pads.yaml': RECORDING, 'lessons/pads.mdx': LESSON });
  await drawFootage(join(content, 'media/pads.mp4'), 20);
  room = await startRoom(content);
});
test.afterAll(async () => {
  await room.stop();
  await discard(content);
});

test('a phone logs the shoot, also without a network, and the log becomes the first cues', async ({
  page,
  browser,
}) => {
  await page.goto(`${room.address}cutting-room/pads/`);
  await page.getByRole('button', { name: 'Let a phone in' }).click();
  const url = await page.locator('.invitation .where').innerText();

  const pocket = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  const phone = await pocket.newPage();
  await phone.goto(url);
  await expect(phone.getByRole('heading', { level: 1 })).toHaveText('Front brake pads');
  expect(phone.url()).not.toContain('#');
  const { violations } = await new AxeBuilder({ page: phone }).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  await phone.screenshot({ path: test.info().outputPath('phone.png') });

  // The phone's own clock stands still between taps, however slow the machine.
  const start = Date.now();
  const secondsLater = (seconds: number) => phone.clock.setFixedTime(start + 1000 * seconds);
  await secondsLater(0);
  await phone.getByLabel(/Time the camera shows/).fill('01:00:05:00');
  await phone.getByRole('button', { name: 'Now' }).tap();
  await secondsLater(1);
  await phone
    .getByRole('button', { name: /Measure the pads/ })
    .first()
    .tap();
  await expect(phone.getByRole('status')).toContainText('Everything is in the cutting room');
  await pocket.setOffline(true);
  await secondsLater(3);
  await phone
    .getByRole('button', { name: /Put the bike on its stand/ })
    .first()
    .tap();
  await secondsLater(4);
  await phone.getByRole('button', { name: 'good take 1 of Put the bike on its stand' }).tap();
  await expect(phone.getByRole('status')).toContainText('2 taps wait for the network; nothing is lost');
  await pocket.setOffline(false);
  await expect(phone.getByRole('status')).toContainText('Everything is in the cutting room');

  // Somebody else with the same picture of the code stays out.
  const other = await (await browser.newContext()).newPage();
  await other.goto(url);
  await expect(other.getByRole('status')).toContainText('used already');

  await expect(page.locator('.shoot-log li')).toHaveCount(2);
  await page.getByRole('button', { name: 'Make first cues and cuts' }).click();
  await expect(page.locator('.save')).toHaveText('Saved');
  const lesson = await readFile(join(content, 'lessons/pads.mdx'), 'utf8');
  expect(lesson).toMatch(/### Measure the pads\n<Cue at="0:00:0[5-9][.\d]*" \/>\nLook in/);
  expect(lesson).toMatch(/### Put the bike on its stand\n<Cue at="0:00:[\d.]+" \/>\nOn level/);
  expect(await readFile(join(content, 'recordings/pads.yaml'), 'utf8')).toMatch(/^edit:\n {2}- \{in: "0:00:0[5-9]/m);
  await page.getByRole('button', { name: 'Close to phones' }).click();
  await expect
    .poll(() =>
      phone.evaluate(() =>
        fetch('/').then(
          () => 'open',
          () => 'closed',
        ),
      ),
    )
    .toBe('closed');
});
