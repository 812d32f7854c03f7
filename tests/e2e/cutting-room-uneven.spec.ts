import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, test } from '@playwright/test';
import { frameSeen } from '../support/frame-seen.ts';
import { discard, drawFootage, roomContent, type Started, startRoom } from '../support/start-room.ts';

const run = promisify(execFile);
const RECORDING = 'title: By phone\nfiles:\n  - file: media/phone.mp4\n';
const LESSON = '---\ntitle: By phone\nrecording: phone\nmachine: tarn-420\n---\n## Look first\n';

let content = '';
let room: Started;
/** When each picture is shown, s, by ffprobe, and the number drawn into it. */
let pictures: { readonly at: number; readonly number: number }[] = [];

test.beforeAll(async () => {
  content = await roomContent({ 'recordings/phone.yaml': RECORDING, 'lessons/phone.mdx': LESSON });
  const [even, phone] = [join(content, 'media/even.mp4'), join(content, 'media/phone.mp4')];
  await drawFootage(even, 10);
  // As a phone in poor light: every seventh picture is left out, and the others come a little early or late.
  const wander = "select='not(eq(mod(n,7),3))',settb=1/90000,setpts='PTS+(mod(N*7919,13)-6)*0.0008/TB'";
  await run('ffmpeg', [
    ...['-v', 'error', '-y', '-i', even, '-vf', wander, '-fps_mode', 'vfr', '-enc_time_base', '1:90000'],
    ...['-c:v', 'libx264', '-preset', 'ultrafast', '-crf', '10', '-g', '50', '-pix_fmt', 'yuv420p', '-c:a', 'copy'],
    phone,
  ]);
  const asked = ['-select_streams', 'v:0', '-show_entries', 'frame=pts_time', '-of', 'json', phone];
  const { stdout } = await run('ffprobe', ['-v', 'error', ...asked]);
  const times: number[] = JSON.parse(stdout).frames.map((frame: { pts_time: string }) => Number(frame.pts_time));
  const numbers = Array.from({ length: 250 }, (_, n) => n).filter((n) => n % 7 !== 3);
  pictures = times.map((at, i) => ({ at: at - (times[0] ?? 0), number: numbers[i] ?? -1 }));
  room = await startRoom(content);
});
test.afterAll(async () => {
  await room.stop();
  await discard(content);
});

test('stepping through what a phone wrote shows each picture once, at its time, and a cue lies on one', {
  tag: '@long',
}, async ({ page }) => {
  await page.goto(`${room.address}cutting-room/phone/`);
  await expect(page.locator('.strip .over')).toBeVisible();
  const clock = page.locator('.clocks dd').first();
  for (const { at, number } of pictures.slice(1, 16)) {
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => frameSeen(page)).toBe(number);
    expect(Number((await clock.textContent())?.slice(6))).toBeCloseTo(at, 2);
  }
  await page.keyboard.press('ArrowLeft');
  await expect.poll(() => frameSeen(page)).toBe(pictures[14]?.number);
  await page.keyboard.press('m');
  await expect(page.locator('.save')).toHaveText('Saved');
  const cue = /<Cue at="0:00:0(\d\.\d+)"/.exec(await readFile(join(content, 'lessons/phone.mdx'), 'utf8'))?.[1];
  // Written up to the next thousandth, so that it lies in its own picture.
  expect(Number(cue) - (pictures[14]?.at ?? 0)).toBeLessThan(0.0011);
  expect(Number(cue)).toBeGreaterThanOrEqual((pictures[14]?.at ?? 0) - 0.00001);
});
