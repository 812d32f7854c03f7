import { expect, type Page, test } from '@playwright/test';
import { programmeCaptions } from '../../src/core/programme/index.ts';
import { frameAt, fromSeconds, toRecording, toSeconds } from '../../src/core/time/index.ts';
import { demoShop, demoTimes, openLesson, pictureIsThere, playing, see, seek, watch } from '../support/lesson-page.ts';

/** Stops the player and holds the picture against the time it says. */
async function expectPictureOfItsTime(page: Page): Promise<void> {
  await page.locator('.vjs-play-control').click();
  await playing(page, false);
  // On a busy machine the picture comes late while it plays, and stays so when it stops: a seek to where it is mends that.
  await seek(page, (await see(page)).time);
  const { frame, time } = await see(page);
  expect(Math.abs((frame ?? Number.NaN) - (await frameOf('chain', time)))).toBeLessThanOrEqual(1);
}

/** The recording's frame that the programme shows at a moment. */
async function frameOf(recordingId: string, programmeSeconds: number): Promise<number> {
  const recording = (await demoShop()).recordings.find(({ id }) => id === recordingId)!;
  return frameAt(toRecording(recording.edit, fromSeconds(programmeSeconds), 'after'), recording.rate!);
}

test('a link to a step shows the frame of its cue, in both camera files and both lessons', async ({ page }) => {
  for (const lesson of ['chain', 'front-brake']) {
    const { chapters, recording } = await demoTimes(lesson);
    const steps = chapters.flatMap((chapter) => chapter.steps);
    for (const { step } of [steps[0]!, steps[9]!, steps.at(-1)!]) {
      await page.goto('about:blank');
      await openLesson(page, `lessons/${lesson}/#${step.id}`);
      await expect(page.locator('[aria-current=step]')).toContainText(step.title);
      // The first picture may be decoded and not drawn yet.
      await expect.poll(async () => (await see(page)).frame).toBeDefined();
      expect(Math.abs((await see(page)).frame! - frameAt(step.cue!.at, recording.rate!))).toBeLessThanOrEqual(1);
    }
  }
});

test('choosing a step plays it from its cue, and shows its values beside the picture', async ({ page }) => {
  await openLesson(page, 'lessons/chain/');
  const { chapters } = await demoTimes('chain');
  const { step, at } = chapters
    .flatMap(({ steps }) => steps)
    .find((each) => each.step.cites.length > 0 && each.at.start > 0)!;
  await page.locator(`a[data-part="${step.id}"]`).click();
  await playing(page, true);
  const { time } = await see(page);
  expect(time).toBeGreaterThanOrEqual(toSeconds(at.start) - 0.02);
  expect(time).toBeLessThan(toSeconds(at.end));
  await expectPictureOfItsTime(page);
  await expect(page.locator('[aria-current=step]')).toContainText(step.title);
  await expect(page.locator('.card:visible h2')).toContainText(step.title);
  await expect(page.locator('.card:visible .dimension').first()).toBeVisible();
  expect(new URL(page.url()).hash).toBe(`#${step.id}`);
});

test('playing across a cut, programme time goes on and nothing of the cut is seen', async ({ page }) => {
  await openLesson(page, 'lessons/chain/');
  const { recording } = await demoTimes('chain');
  const [first, second] = recording.edit;
  const join = toSeconds(first!.end - first!.start);
  await seek(page, join - 1.2);
  const seen = await watch(page, join + 1.2);
  const rate = recording.rate!;
  const [out, into] = [frameAt(first!.end, rate), frameAt(second!.start, rate)];
  const frames = seen.flatMap(({ frame }) => (frame === undefined ? [] : [frame]));
  expect(frames.some((frame) => frame < out)).toBe(true);
  expect(frames.some((frame) => frame >= into)).toBe(true);
  // A cut point may lie inside a frame, and an element is stopped by a timer, which comes as late as the page is busy:
  // the looks tell how busy. Whoever stops in time shows two frames at most, and stands there until the next picture is in.
  const near = seen.filter(({ time }) => Math.abs(time - join) < 0.5);
  const busy = Math.max(...near.slice(1).map(({ wall }, i) => wall - (near[i]?.wall ?? wall)));
  const late = 2 + (2 * busy * rate.numerator) / rate.denominator;
  expect(late).toBeLessThan((into - out) / 4);
  expect(frames.filter((frame) => frame > out + late && frame < into - 2)).toEqual([]);
  for (const [i, now] of seen.entries()) {
    const before = seen[i - 1];
    if (!before) continue;
    expect(now.time - before.time).toBeGreaterThanOrEqual(-1e-6);
    // What the cut took out is not counted: a jump would be as long as the cut, and no report lags by half of it.
    expect(now.time - before.time - (now.wall - before.wall)).toBeLessThan(toSeconds(second!.start - first!.end) / 2);
  }
  expect(seen.at(-1)!.time).toBeGreaterThan(join);
});

test('two camera files play as one', async ({ page }) => {
  await openLesson(page, 'lessons/chain/');
  const { recording } = await demoTimes('chain');
  const boundary = recording.files[0]!.span.end;
  const kept = recording.edit.find(({ start, end }) => start < boundary && boundary < end)!;
  const before = recording.edit
    .filter(({ end }) => end <= kept.start)
    .reduce((sum, { start, end }) => sum + end - start, 0);
  const join = toSeconds(before + boundary - kept.start);
  await seek(page, join - 1.2);
  const seen = await watch(page, join + 1.2);
  expect(new Set(seen.map(({ file }) => file)).size).toBe(2);
  const frames = seen.flatMap(({ frame }) => (frame === undefined ? [] : [frame]));
  expect(frames.toSorted((a, b) => a - b)).toEqual(frames);
  const last = frameAt(boundary, recording.rate!);
  expect(frames.some((frame) => frame < last)).toBe(true);
  expect(frames.some((frame) => frame >= last)).toBe(true);
  for (const [i, { time }] of seen.entries()) expect(time).toBeGreaterThanOrEqual((seen[i - 1]?.time ?? 0) - 1e-6);
});

test.describe('a time in the link', () => {
  for (const [fragment, seconds] of [
    ['t=75.5', 75.5],
    ['t=0:01:15.5', 75.5],
    ['t=npt:90,95', 90],
    ['t=00:20:00', 1200],
  ] as const)
    test(`#${fragment}`, { tag: fragment === 't=75.5' ? '@quick' : '@long' }, async ({ page }) => {
      await openLesson(page, `lessons/chain/#${fragment}`);
      const { frame, time } = await see(page);
      expect(time).toBeCloseTo(seconds, 1);
      expect(Math.abs(frame! - (await frameOf('chain', seconds)))).toBeLessThanOrEqual(1);
    });

  test('followed while the page is open; the range ends where it says', async ({ page }) => {
    await openLesson(page, 'lessons/chain/');
    await page.evaluate(() => {
      location.hash = 't=20,24';
    });
    await expect.poll(async () => (await see(page)).time).toBeCloseTo(20, 1);
    await page.locator('.vjs-play-control').click();
    await playing(page, true);
    await playing(page, false);
    const { time } = await see(page);
    // However late a busy machine stops it, what is shown is the last picture of the range.
    expect(time).toBeGreaterThan(23.9);
    expect(time).toBeLessThan(24);
  });
});

test('search for "axle" leads to a step, playing from its time', async ({ page }) => {
  await page.goto('');
  await page.getByRole('searchbox').fill('axle');
  await page.getByRole('button', { name: 'Find' }).click();
  await expect(page.getByRole('main').getByRole('status')).toHaveText(/^\d+ found/);
  const found = page.locator('.results a[href*="lessons/"]').first();
  const title = await found.textContent();
  expect(title?.toLowerCase()).toContain('axle');
  await found.click();
  await pictureIsThere(page);
  await playing(page, true);
  const { chapters } = await demoTimes('chain');
  const { at, step } = chapters.flatMap(({ steps }) => steps).find((each) => each.step.title === title)!;
  await expect(page.locator('[aria-current=step]')).toContainText(step.title);
  const { time } = await see(page);
  expect(time).toBeGreaterThanOrEqual(toSeconds(at.start) - 0.02);
  expect(time).toBeLessThan(toSeconds(at.start) + 20);
  await expectPictureOfItsTime(page);
});

test('captions run in programme time, chapters are in the menu', async ({ page }) => {
  await openLesson(page, 'lessons/chain/');
  const { recording } = await demoTimes('chain');
  const spoken = programmeCaptions(recording).find(({ at, text }) => at.start > fromSeconds(150) && text.length > 20)!;
  await page.getByRole('button', { name: 'Keys' }).focus();
  await page.keyboard.press('c');
  await seek(page, toSeconds(spoken.at.start) + 0.5);
  const shown = page.locator('.vjs-text-track-display');
  await expect(shown).toContainText(spoken.text.split(/\s+/).slice(0, 2).join(' '));

  await page.getByRole('button', { name: 'Chapters' }).click();
  const { chapters } = await demoTimes('chain');
  await expect(page.getByRole('menuitemradio')).toContainText(chapters.map(({ chapter }) => chapter.title));
  await page.getByRole('menuitemradio', { name: chapters[2]!.chapter.title }).click();
  await expect.poll(async () => Math.abs((await see(page)).time - toSeconds(chapters[2]!.at.start))).toBeLessThan(0.5);
});
