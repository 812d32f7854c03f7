import { execFile } from 'node:child_process';
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { promisify } from 'node:util';
import { expect, test } from '@playwright/test';
import { type Served, serveSite } from '../../src/node/site/index.ts';
import { pictureIsThere } from '../support/lesson-page.ts';

const HOME = resolve(import.meta.dirname, '../..');
const run = promisify(execFile);
const liftside = (...args: string[]) => run('node', [join(HOME, 'src/node/cli/liftside.mjs'), ...args], { cwd: HOME });

let folder: string;
let served: Served | undefined;

test.beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-correction-'));
});
test.afterAll(async () => {
  await served?.close();
  await rm(folder, { recursive: true, force: true });
});

test('a changed spec shows up as correction, feed entry, handout line and card over the picture', {
  tag: '@long',
}, async ({ page }) => {
  const content = join(folder, 'content');
  await cp(join(HOME, 'content'), content, { recursive: true });
  const table = join(content, 'specs/tarn-420.yaml');
  const before = await readFile(table, 'utf8');
  expect(before).toContain('    nominal: 98\n    plusMinus: 5\n');
  const history =
    '    history:\n      - { until: 2024-06-30, bulletin: Bulletin 24-7, nominal: 98, plusMinus: 5, unit: N·m }\n';
  await writeFile(
    table,
    before.replace('    nominal: 98\n    plusMinus: 5\n', `    nominal: 110\n    plusMinus: 5\n${history}`),
  );
  // The class was held while the former value was the right one; the picture of another step shows it too.
  const heldOn = join(content, 'classes/chain-saturday.yaml');
  await writeFile(heldOn, (await readFile(heldOn, 'utf8')).replace(/^date: .*$/m, 'date: 2024-03-02'));
  const recording = join(content, 'recordings/chain.yaml');
  await writeFile(
    recording,
    (await readFile(recording, 'utf8')).replace('people:', 'shows:\n  - { at: "1:00:30", text: 98 N·m }\npeople:'),
  );

  // A critical value that the recording still says is an error until a correction is accepted.
  const refused = await liftside('check', '--json', '--content', content).catch((error: { stdout: string }) => error);
  const told = JSON.parse(refused.stdout).diagnostics.filter(
    ({ severity }: { severity: string }) => severity === 'error',
  );
  // One finding for one cause, which names both places.
  expect(told.map(({ rule }: { rule: string }) => rule)).toEqual(['shown-value-wrong']);
  expect(JSON.stringify(told)).toContain('\\"98 newton metres, plus or minus 5\\" is said');
  await liftside('corrections', 'chain', '--accept', '--note', 'The torque was raised.', '--content', content);
  const fine = await liftside('check', '--json', '--content', content);
  expect(JSON.parse(fine.stdout).counts.error).toBe(0);

  const site = join(folder, 'site');
  await liftside('build', '--content', content, '--footage', 'uncut', '--to', site);
  served = await serveSite({ dir: site });

  // The row that the bulletin changed first, in the same words wherever the correction stands.
  const said =
    /2022–2025:\s+110 ± 5 N·m\s+\(81\.1 ± 3\.6 lbf·ft\),?\s+critical,?\s+said 7 N·m too little, right until 2024-06-30[^0-9]*(?:22-04[^0-9]*1)?[^0-9]*2019–2021:\s+90 ± 5 N·m/;
  const feed = await (await fetch(`${served.address}corrections/atom.xml`)).text();
  expect(feed).toMatch(said);
  expect(feed.match(/<entry>/g)).toHaveLength(1);
  const rss = await (await fetch(`${served.address}corrections/rss.xml`)).text();
  expect(rss.match(/<item>/g)).toHaveLength(1);

  await page.goto(`${served.address}corrections/`);
  await expect(page.locator('.correction-list').first()).toContainText('98 newton metres');
  await expect(page.locator('.correction-list').first()).toContainText(said);
  // The class that was held before is named, with what it took home.
  const after = page.getByRole('region', { name: 'Changed after a class' });
  await expect(after.getByRole('listitem')).toHaveCount(1);
  await expect(after).toContainText('Rear axle nut');
  await expect(after).toContainText('98 ± 5 N·m held until 2024-06-30, changed by: Bulletin 24-7');
  await expect(after).toContainText('Now 2022–2025: 110 ± 5 N·m');
  await expect(after).toContainText('Chain and sprockets on a Saturday, 2024-03-02');
  await expect(after).toContainText('Lessons: Replace the chain and sprockets');
  await page.goto(`${served.address}classes/chain-saturday/handout/`);
  await expect(page.locator('.correction')).toContainText(said);

  await page.goto(`${served.address}lessons/chain/#tighten-the-axle-nut`);
  await pictureIsThere(page);
  await expect(page.locator('#tighten-the-axle-nut .correction')).toContainText(said);
  // Before the words are said there is no card, from then on there is, and after the step there is none.
  const card = page.locator('.over-picture');
  const { start, end } = await page
    .locator('lesson-player > script')
    .evaluate((script) => JSON.parse(script.textContent ?? '').corrections[0] as { start: number; end: number });
  for (const [moment, shown] of [
    [start - 2, false],
    [start + 2, true],
    [end + 2, false],
  ] as const) {
    await page.goto(`${served.address}lessons/chain/#t=${moment}`);
    await page.reload();
    await pictureIsThere(page);
    await expect(card).toBeVisible({ visible: shown });
  }

  // In full screen and on a phone the card is there too, over the picture and not over the controls.
  for (const [width, height] of [
    [1280, 800],
    [390, 844],
  ] as const) {
    // A window that has just left the full screen takes no size until it is back.
    await expect(() => page.setViewportSize({ width, height })).toPass();
    await page.goto(`${served.address}lessons/chain/#t=${start + 2}`);
    await page.reload();
    await pictureIsThere(page);
    for (const fullScreen of [false, true]) {
      if (fullScreen) await page.getByRole('button', { name: 'Full screen' }).click();
      await expect.poll(() => page.evaluate(() => document.fullscreenElement !== null)).toBe(fullScreen);
      await expect(card).toBeVisible();
      await expect(card).toContainText('110 ± 5 N·m');
      const [slip, bar, picture] = await Promise.all(
        [card, page.locator('.vjs-control-bar'), page.locator('.decks')].map((part) => part.boundingBox()),
      );
      expect(slip!.y + slip!.height).toBeLessThanOrEqual(bar!.y);
      expect(picture!.height).toBeGreaterThan(200);
    }
    await page.evaluate(() => document.exitFullscreen());
  }
});
