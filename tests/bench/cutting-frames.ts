// npx node tests/bench/cutting-frames.ts
// Frame times of the strip with a three-hour recording, 300 cues and 200 cuts, beside an empty canvas in the same
// browser; time from an arrow key to the frame being there; time from a cue key to the file being on disk.

import { execFile } from 'node:child_process';
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import type { Page } from 'playwright-core';
import { openBrowser } from '../support/open-browser.ts';
import { discard, roomContent, startRoom } from '../support/start-room.ts';

const HOURS = 3;
const SECONDS = HOURS * 3600;
const TICKS = 705_600_000;
const clock = (s: number) =>
  `${Math.floor(s / 3600)}:${String(Math.floor(s / 60) % 60).padStart(2, '0')}:${String(s % 60).padStart(2, '0')}`;
const edit = Array.from(
  { length: 201 },
  (_, i) => `  - {in: "${clock(i * 53 + 10)}", out: "${clock(i * 53 + 45)}"}`,
).join('\n');
const steps = Array.from(
  { length: 300 },
  (_, i) =>
    `${i % 10 === 0 ? `## Chapter ${i / 10 + 1}\n\n` : ''}### Step ${i + 1} of the long one\n<Cue at="${clock(12 + i * 35)}" />\nDo it.\n`,
).join('\n');
const content = await roomContent({
  'recordings/long.yaml': `title: Three hours\nfiles: [{file: media/long.mp4}]\nrate: "25"\nedit:\n${edit}\n`,
  'lessons/long.mdx': `---\ntitle: The long one\nrecording: long\nmachine: tarn-420\n---\n\n${steps}`,
});
await promisify(execFile)('ffmpeg', [
  ...['-v', 'error', '-f', 'lavfi', '-i', `color=c=0x204060:s=160x90:r=25:d=${SECONDS}`, '-c:v', 'libx264'],
  ...['-preset', 'ultrafast', '-tune', 'stillimage', '-g', '50', join(content, 'media/long.mp4')],
]);
const folder = join(content, '.liftside/analysis/long');
await mkdir(folder, { recursive: true });
const pairs = Int8Array.from({ length: SECONDS * 200 }, (_, i) => (i % 2 === 0 ? -1 : 1) * ((i * 7919) % 120));
await writeFile(join(folder, 'peaks.s8'), pairs);
await promisify(execFile)('ffmpeg', [
  ...['-v', 'error', '-f', 'lavfi', '-i', `testsrc2=s=160x90:r=1/10:d=${SECONDS}`, '-vf', 'tile=10x10'],
  join(folder, 'sheet-0-%02d.jpg'),
]);
const sheets = (await readdir(folder))
  .filter((name) => name.endsWith('.jpg'))
  .toSorted()
  .map((name, i) => ({ name, at: i * 1000 * TICKS }));
const spans = (every: number, long: number) =>
  Array.from({ length: Math.floor(SECONDS / every) }, (_, i) => [i * every * TICKS, (i * every + long) * TICKS]);
await writeFile(
  join(folder, 'analysis.json'),
  JSON.stringify({
    ...{
      version: 1,
      recording: 'long',
      inputs: [],
      length: SECONDS * TICKS,
      loudness: {},
      angles: [],
      claps: [],
      black: [],
      freeze: [],
    },
    ...{ speech: spans(9, 6), silence: spans(9, 2), scenes: spans(20, 1).map(([at]) => ({ at, score: 10 })) },
    keyFrames: Array.from({ length: SECONDS / 2 }, (_, i) => i * 2 * TICKS),
    thumbnails: { every: 10, width: 160, columns: 10, rows: 10, sheets },
    peaks: { perSecond: 100, bytes: [pairs.length] },
  }),
);

const room = await startRoom(content);
const browser = await openBrowser();
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });

/** Times between frames while something is done in each of them, and the time that something takes, ms. */
const frames = (target: Page, wheel: boolean) =>
  target.evaluate(
    (moving) =>
      new Promise<{ between: number[]; work: number[] }>((done) => {
        const canvas = document.querySelector('.strip .over') ?? document.querySelector('canvas');
        const between: number[] = [];
        const work: number[] = [];
        let last = performance.now();
        let n = 0;
        const step = (now: number) => {
          between.push(now - last);
          last = now;
          if (n++ > 300) return done({ between: between.slice(2), work });
          const zoom = n % 4 === 0;
          const event = {
            deltaY: zoom ? (n % 80 < 40 ? -60 : 60) : n % 160 < 80 ? 90 : -90,
            ctrlKey: zoom,
            clientX: 200,
            clientY: 400,
            bubbles: true,
            cancelable: true,
          };
          if (moving) canvas?.dispatchEvent(new WheelEvent('wheel', event));
          requestAnimationFrame(step);
          // What was asked for in this frame is drawn after this line and before the next task.
          const channel = new MessageChannel();
          const began = performance.now();
          channel.port1.onmessage = () => work.push(performance.now() - began);
          channel.port2.postMessage(0);
        };
        requestAnimationFrame(step);
      }),
    wheel,
  );
/** Processor time of every process of the browser together, seconds. */
const devtools = await browser.newBrowserCDPSession();
const spent = async () => {
  const { processInfo } = await devtools.send('SystemInfo.getProcessInfo');
  return processInfo.reduce((sum, { cpuTime }) => sum + cpuTime, 0);
};
const measured = async (wheel: boolean) => {
  const before = await spent();
  const found = await frames(page, wheel);
  return {
    ...told(found),
    processorMsPerFrame: +((((await spent()) - before) * 1000) / found.between.length).toFixed(1),
  };
};
const share = (values: readonly number[], at: number) =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length * at)] ?? 0;
const told = ({ between, work }: { between: number[]; work: number[] }) => ({
  medianMs: +share(between, 0.5).toFixed(1),
  p95Ms: +share(between, 0.95).toFixed(1),
  missedShare: +(between.filter((ms) => ms > 25).length / between.length).toFixed(3),
  workP95Ms: +share(work, 0.95).toFixed(1),
});

await page.setContent('<canvas width="460" height="750"></canvas>');
const empty = await measured(false);
await page.goto(`${room.address}cutting-room/long/`);
await page.locator('.entry').first().waitFor({ timeout: 180_000 });
await page.waitForTimeout(5000);
const strip = await measured(true);
await page.setContent('<canvas width="460" height="750"></canvas>');
const emptyAgain = await measured(false);

await page.goto(`${room.address}cutting-room/long/`);
await page.locator('.entry').first().waitFor({ timeout: 180_000 });
await page.waitForTimeout(5000);
const seeks: number[] = [];
for (let n = 0; n < 30; n++) {
  const wait = page.evaluate(
    () =>
      new Promise<number>((done) => {
        let began = 0;
        document.addEventListener(
          'keydown',
          () => {
            began = performance.now();
          },
          { once: true, capture: true },
        );
        document
          .querySelector('video')
          ?.addEventListener('seeked', () => done(performance.now() - began), { once: true });
      }),
  );
  await page.waitForTimeout(50);
  await page.keyboard.press(n % 3 === 0 ? 'Shift+ArrowRight' : 'ArrowRight');
  seeks.push(await wait);
}
const saves: number[] = [];
for (let n = 0; n < 10; n++) {
  await page.keyboard.press('ArrowRight');
  const answered = page.waitForResponse((response) => response.url().includes('/api/save/'));
  const began = performance.now();
  await page.keyboard.press('m');
  await answered;
  saves.push(performance.now() - began);
}
console.log(
  JSON.stringify(
    {
      ...{ emptyCanvas: empty, strip, emptyCanvasAgain: emptyAgain },
      inputToSeekMs: { median: +share(seeks, 0.5).toFixed(0), p95: +share(seeks, 0.95).toFixed(0) },
      cueKeyToDiskMs: { median: +share(saves, 0.5).toFixed(0), worst: +share(saves, 1 - 1e-9).toFixed(0) },
    },
    null,
    2,
  ),
);
await browser.close();
await room.stop();
await discard(content);
