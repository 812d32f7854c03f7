import { expect, type Page, test } from '@playwright/test';
import { frameAt, fromSeconds, toRecording, toSeconds } from '../../src/core/time/index.ts';
import { demoTimes, openLesson, playing, seek, watch } from '../support/lesson-page.ts';

/** Holds back the script of the player's controls until it is let through. */
async function holdControls(page: Page): Promise<() => void> {
  let letThrough = () => {};
  const held = new Promise<void>((let_) => {
    letThrough = let_;
  });
  await page.route(/\/open-player[^/]*\.js$/, async (route) => {
    await held;
    await route.continue();
  });
  return letThrough;
}

/** Films that a page asks for, by path below the site's footage. */
function filmsAsked(page: Page): string[] {
  const asked: string[] = [];
  page.on('request', (request) => {
    const [, path] = /\/footage\/(.*\.mp4)$/.exec(request.url()) ?? [];
    if (path !== undefined) asked.push(path);
  });
  return asked;
}

const seconds = (page: Page) =>
  page.evaluate(() => document.querySelector<HTMLVideoElement>('video[data-on-air]')?.currentTime ?? 0);

test('the picture moves before the script of its controls has come, and goes on while they take it up', async ({
  page,
}) => {
  const letThrough = await holdControls(page);
  await page.goto('lessons/chain/');
  await page.locator('lesson-player.ready').waitFor();
  await page.locator('.start').focus();
  await page.keyboard.press('Enter');
  await playing(page, true);
  // Slowly, so that the opening lasts as long as a busy machine takes for all this.
  await page.evaluate(() => {
    for (const video of document.querySelectorAll('video')) video.playbackRate = 0.0625;
  });
  const begun = await seconds(page);
  await expect.poll(() => seconds(page)).toBeGreaterThan(begun);
  await expect(page.locator('.video-js')).toHaveCount(0);
  // From now on until the controls play it: what the element says, how its time runs, and what moves on the page.
  await page.evaluate(() => {
    const video = document.querySelector<HTMLVideoElement>('video[data-on-air]')!;
    const seen = { same: false, over: false, told: [] as string[], times: [] as number[], shift: 0 };
    for (const type of ['pause', 'emptied', 'loadstart', 'seeking', 'waiting', 'play'])
      video.addEventListener(type, () => seen.over || seen.told.push(type));
    let after = 0;
    const look = () => {
      seen.times.push(video.currentTime);
      if (document.querySelector('lesson-player.open .vjs-play-control.vjs-playing')) after += 1;
      seen.over = after > 5;
      if (seen.over) seen.same = video === document.querySelector('.video-js video[data-on-air]');
      else requestAnimationFrame(look);
    };
    look();
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & { value: number })[]) seen.shift += entry.value;
    }).observe({ type: 'layout-shift' });
    Object.assign(window, { seen });
  });
  letThrough();
  await page.locator('lesson-player.open').waitFor();
  await expect(page.locator('.vjs-play-control')).toBeFocused();
  await expect(page.locator('.vjs-play-control')).toHaveClass(/vjs-playing/);
  type Heard = { same: boolean; over: boolean; told: string[]; times: number[]; shift: number };
  const heard = () => page.evaluate(() => (window as unknown as { seen: Heard }).seen);
  await expect.poll(async () => (await heard()).over).toBe(true);
  const { told, times, shift, same } = await heard();
  expect([told, same]).toEqual([[], true]);
  expect(times.at(-1)).toBeGreaterThan(times[0] ?? Number.NaN);
  expect(times.toSorted((a, b) => a - b)).toEqual(times);
  expect(shift).toBeLessThan(0.05);
});

test('pressed again before that, it stops; a step is gone to, and a key plays on', async ({ page }) => {
  const letThrough = await holdControls(page);
  await page.goto('lessons/chain/');
  await page.locator('lesson-player.ready').waitFor();
  await page.locator('.start').click();
  await playing(page, true);
  await page.locator('.start').click();
  await playing(page, false);
  await page.getByRole('button', { name: 'Next step' }).click();
  await expect(page.locator('[aria-current=step]')).toBeVisible();
  await page.locator('.start').focus();
  await page.keyboard.press('k');
  await playing(page, true);
  letThrough();
  await page.locator('lesson-player.open').waitFor();
  await expect(page.locator('.vjs-play-control')).toHaveClass(/vjs-playing/);
});

test('a press on a step asks for little: its opening, and the film when that runs', async ({ page }) => {
  const asked = filmsAsked(page);
  const sizes: Promise<number>[] = [];
  page.on('response', (response) => {
    if (/\/footage\/openings\//.test(response.url())) sizes.push(response.headerValue('content-length').then(Number));
  });
  await page.goto('lessons/chain/');
  await page.locator('lesson-player.ready').waitFor();
  await page.locator('a[data-part="read-the-teeth"]').first().click();
  await playing(page, true);
  expect(asked[0]).toMatch(/^openings\/chain-\d+\.mp4$/);
  expect(Math.max(...(await Promise.all(sizes)))).toBeLessThan(250_000);
  await expect.poll(() => asked.some((path) => path.startsWith('media/'))).toBe(true);
});

test('the film takes over from the opening: each frame once, time goes on', async ({ page }) => {
  const { recording, chapters } = await demoTimes('chain');
  const { at } = chapters.flatMap(({ steps }) => steps).find(({ step }) => step.id === 'read-the-teeth')!;
  // An opening plays for twelve seconds.
  const join = toSeconds(at.start) + 12;
  await openLesson(page, `lessons/chain/#t=${(join - 3).toFixed(2)}`);
  const seen = await watch(page, join + 1.5);
  const files = seen.map(({ file }) => file);
  expect([files[0], files.at(-1)]).toEqual([
    expect.stringMatching(/^chain-\d+\.mp4$/),
    expect.stringMatching(/^chain-[12]\.mp4$/),
  ]);
  const frameOf = (time: number) => frameAt(toRecording(recording.edit, fromSeconds(time), 'after'), recording.rate!);
  const frames = seen.flatMap(({ frame, time }) => (frame === undefined ? [] : [{ frame, time }]));
  expect(frames.length).toBeGreaterThan(10);
  // The change is made by a timer, which comes as late as the page is busy: the looks tell how busy.
  const busy = Math.max(...seen.slice(1).map(({ wall }, i) => wall - (seen[i]?.wall ?? wall)));
  const late = 1 + (2 * busy * recording.rate!.numerator) / recording.rate!.denominator;
  for (const [i, { frame, time }] of frames.entries()) {
    expect(frame).toBeGreaterThanOrEqual((frames[i - 1]?.frame ?? 0) - late);
    // A picture may be drawn late on a busy machine, and never comes early.
    expect(frame - frameOf(time)).toBeLessThanOrEqual(late);
  }
  for (const [i, { time }] of seen.entries()) expect(time).toBeGreaterThanOrEqual((seen[i - 1]?.time ?? 0) - 1e-6);
  await seek(page, join - 1);
  expect(
    new URL(await page.evaluate(() => document.querySelector<HTMLVideoElement>('video[data-on-air]')!.currentSrc))
      .pathname,
  ).toContain('/footage/media/');
});
