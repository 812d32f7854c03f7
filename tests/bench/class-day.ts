import { openBrowser } from '../support/open-browser.ts';
import { copyDemo, discard, startRoom } from '../support/start-room.ts';

/*
 * How long a look at the ways out takes while a film plays, and what it costs the film: frames that were dropped with a
 * look every second against the same film left alone, in one run. `npx node tests/bench/class-day.ts [seconds]`.
 */
const seconds = Number(process.argv[2] ?? 20);
const content = await copyDemo();
const started = await startRoom(content);
const browser = await openBrowser();
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 720 } });
  page.setDefaultTimeout(300_000);
  await page.goto(`${started.address}classes/chain-saturday/present/`);
  await page.getByRole('button', { name: 'Begin the class' }).click();
  await page.keyboard.press('n');
  await page.keyboard.press('n');
  await page.waitForFunction(
    () => (document.querySelector('video[data-on-air]') as HTMLVideoElement | null)?.currentTime ?? 0 > 1,
  );
  const played = async (busy: boolean) => {
    const quality = () =>
      page.evaluate(() => {
        const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
        const { droppedVideoFrames = 0, totalVideoFrames = 0 } = video?.getVideoPlaybackQuality() ?? {};
        return { dropped: droppedVideoFrames, total: totalVideoFrames };
      });
    const before = await quality();
    const looks: number[] = [];
    for (let second = 0; second < seconds; second++) {
      if (busy) await page.keyboard.press(second % 2 === 0 ? '+' : '-');
      await page.waitForTimeout(1000);
      if (busy) looks.push(Number(await page.locator('.ways').getAttribute('data-look-ms')));
    }
    const after = await quality();
    const total = after.total - before.total;
    return { total, share: (after.dropped - before.dropped) / Math.max(1, total), looks };
  };
  const alone = await played(false);
  const busy = await played(true);
  const percent = (share: number) => `${(100 * share).toFixed(2)} %`;
  const looks = busy.looks.toSorted((a, b) => a - b);
  console.log(`film alone: ${percent(alone.share)} of ${alone.total} frames dropped
film with a look at the ways out every second: ${percent(busy.share)} of ${busy.total} frames dropped
a look: half of them within ${looks[Math.floor(looks.length / 2)]} ms, the longest ${looks.at(-1)} ms`);
} finally {
  await browser.close();
  await started.stop();
  await discard(content);
}
process.exit(0);
