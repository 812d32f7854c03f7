import { execFile } from 'node:child_process';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, type Page, test } from '@playwright/test';
import { fromSeconds } from '../../src/core/time/index.ts';
import { unreadId } from '../../src/core/words/index.ts';
import { discard, roomContent, type Started, startRoom } from '../support/start-room.ts';

const RECORDING = `title: Front brake pads, uncut
files:
  - file: media/pads.mp4
rate: "25"
edit:
  - {in: "0:00:00", out: "0:01:20"}   # all but the end
angles:
  - {id: close, file: media/close.mp4, offset: "0:00:02"}
`;
const LESSON = `---
title: Front brake pads
recording: pads
machine: tarn-420
---

## Look first
<Cue at="0:00:02" />

### Measure the pads
<Cue at="0:00:04" />
Look in from below.

### Push the pistons back
<Cue at="0:00:50" />
Slowly, by hand. Set it to <Spec of="no-such-thing" />.
`;

let content = '';
let room: Started;

test.describe.configure({ mode: 'serial' });
test.beforeAll(async () => {
  content = await roomContent({ 'recordings/pads.yaml': RECORDING, 'lessons/pads.mdx': LESSON });
  // A tone with a pause each eight seconds, nothing at all from 0:21 to 0:48, black from 0:60 to 0:66.
  const heard = 'if(between(t,21,48),0,if(lt(mod(t,8),5),0.4,0))';
  await promisify(execFile)('ffmpeg', [
    ...['-v', 'error', '-f', 'lavfi', '-i', 'testsrc2=s=320x180:r=25:d=90'],
    ...['-f', 'lavfi', '-i', `sine=frequency=330:duration=90,volume='${heard}':eval=frame`],
    ...['-vf', "drawbox=color=black:t=fill:enable='between(t,60,66)'", '-c:v', 'libx264', '-preset', 'ultrafast'],
    ...['-g', '50', '-pix_fmt', 'yuv420p', '-c:a', 'aac', '-b:a', '32k', join(content, 'media/pads.mp4')],
  ]);
  // The other camera ran two seconds later, and is blue.
  await promisify(execFile)('ffmpeg', [
    ...['-v', 'error', '-f', 'lavfi', '-i', 'color=c=0x2040c0:s=320x180:r=25:d=60', '-c:v', 'libx264'],
    ...['-preset', 'ultrafast', '-g', '50', '-pix_fmt', 'yuv420p', join(content, 'media/close.mp4')],
  ]);
  room = await startRoom(content);
});
test.afterAll(async () => {
  await room.stop();
  await discard(content);
});

const read = (file: string) => readFile(join(content, file), 'utf8');
const open = async (page: Page) => {
  await page.goto(`${room.address}cutting-room/pads/`);
  await expect(page.locator('.entry').first()).toBeVisible();
};
const keys = async (page: Page, ...names: string[]) => {
  for (const name of names) await page.keyboard.press(name);
};
const saved = (page: Page) => expect(page.locator('.save')).toHaveText('Saved');
/** Recording time on the page, seconds. */
const clock = async (page: Page) => {
  const [h = 0, m = 0, s = 0, f = 0] = ((await page.locator('.clocks dd').first().textContent()) ?? '')
    .split(':')
    .map(Number);
  return h * 3600 + m * 60 + s + f / 25;
};

test('analysing the footage brings the waveform and cuts to say yes or no to', async ({ page }) => {
  await open(page);
  await expect(page.locator('.seen .hint')).toContainText('the footage is not analysed');
  await page.getByRole('button', { name: 'Analyse the footage' }).press('Enter');
  const list = page.locator('.suggestions');
  await expect(list).toBeVisible();
  await expect(page.locator('.seen .hint')).toHaveCount(0);
  const rows = list.locator('li');
  await expect(rows.filter({ hasText: 'without a word' })).toHaveCount(1);
  await expect(rows.filter({ hasText: 'black' })).toHaveCount(1);
  const count = await rows.count();

  // By keyboard: to the first one, yes; the next one, no.
  await page.locator('.strip .over').focus();
  await keys(page, 'Home', 'g');
  expect(await clock(page)).toBeGreaterThan(20);
  expect(await clock(page)).toBeLessThan(24);
  await keys(page, 'y');
  await expect(rows).toHaveCount(count - 1);
  await expect
    .poll(() => read('recordings/pads.yaml'))
    .toMatch(/^ {2}- \{in: "0:00:00", out: "0:00:21[.\d]*"\}.*\n {2}- \{in: "0:00:47[.\d]*", out: "0:01:20"\}/m);
  await saved(page);
  const cut = await read('recordings/pads.yaml');
  expect(cut).toContain('# all but the end');
  expect(await clock(page)).toBeGreaterThan(58);
  await keys(page, 'n');
  await expect(rows).toHaveCount(count - 2);
  expect(await read('recordings/pads.yaml')).toBe(cut);
  // A refusal is taken back like a cut, by its meaning.
  await keys(page, 'Control+z');
  await expect(page.locator('.said')).toContainText('undone: refused the cut');
  await expect(rows).toHaveCount(count - 1);
  await keys(page, 'Control+z');
  await expect(rows).toHaveCount(count);
  await expect.poll(() => read('recordings/pads.yaml')).toBe(RECORDING);
  await saved(page);
  // By hand, on its own row.
  await rows.filter({ hasText: 'black' }).getByRole('button', { name: /^Yes/ }).click();
  await expect.poll(() => read('recordings/pads.yaml')).toMatch(/out: "0:01:00/);
  await saved(page);
  await keys(page, 'Control+z');
  await expect.poll(() => read('recordings/pads.yaml')).toBe(RECORDING);
  await saved(page);
});

test('a hand that drags the playhead or an edge comes to lie on a silence, and without snapping where it is @long', async ({
  page,
}) => {
  await open(page);
  await expect(page.locator('.suggestions')).toBeVisible();
  const strip = page.locator('.strip .over');
  const box = await strip.boundingBox();
  if (!box) throw new Error('no strip');
  const yOf = (seconds: number) => box.y + (seconds / 90) * box.height;
  const x = box.x + 120;
  // The tone stops at 5 s and comes back at 8 s; the hand lets go half a second beside that.
  await page.mouse.move(x, yOf(12));
  await page.mouse.down();
  await page.mouse.move(x, yOf(10));
  await page.mouse.move(x, yOf(8.5));
  expect(await clock(page)).toBeLessThan(8.1);
  expect(await clock(page)).toBeGreaterThan(7.7);
  await page.keyboard.down('Shift');
  await page.mouse.move(x, yOf(8.6));
  expect(Math.abs((await clock(page)) - 8.6)).toBeLessThan(0.2);
  await page.keyboard.up('Shift');
  await page.mouse.up();

  // The out point at 1:20 dragged to 1:09.4; a tone stopped at 1:09.
  await page.mouse.move(x, yOf(80));
  await page.mouse.down();
  await page.mouse.move(x, yOf(75));
  await page.mouse.move(x, yOf(69.4));
  await page.mouse.up();
  await expect(page.locator('.said')).toContainText('moved the out point from 0:01:20');
  await expect
    .poll(() => read('recordings/pads.yaml'))
    .toMatch(/out: "0:01:09(\.(0\d|1[0-6])\d*)?"\} {3}# all but the end/);
  await keys(page, 'Control+z');
  await saved(page);
  // The same without snapping stays where the hand let go.
  await page.getByLabel('Snap to').selectOption('nothing');
  await page.mouse.move(x, yOf(80));
  await page.mouse.down();
  await page.mouse.move(x, yOf(75));
  await page.mouse.move(x, yOf(69.6));
  await page.mouse.up();
  await expect.poll(() => read('recordings/pads.yaml')).toMatch(/out: "0:01:09\.[4-8]/);
  await saved(page);
  await page.locator('body').press('Control+z');
  await expect.poll(() => read('recordings/pads.yaml')).toBe(RECORDING);
  await saved(page);
});

test('a finding leads to the time and the line: in the step it stands in, or in the file', async ({ page }) => {
  await writeFile(join(content, 'lessons/pads.mdx'), LESSON.replace('machine: tarn-420', 'machine: tarn-999'));
  await open(page);
  const selection = () =>
    page.locator('.text textarea').evaluate((field) => {
      const { value, selectionStart, selectionEnd } = field as HTMLTextAreaElement;
      return value.slice(selectionStart, selectionEnd);
    });
  const row = (words: string) => page.locator('.findings button').filter({ hasText: words }).first();
  await row('tarn-999').click();
  await expect(page.locator('.text h2')).toContainText('lessons/pads.mdx');
  await expect.poll(selection).toContain('tarn-999');
  // Mended where it stands; the box is left with Escape.
  await page.keyboard.insertText('tarn-420');
  await keys(page, 'Escape');
  await saved(page);
  await expect.poll(() => read('lessons/pads.mdx')).toBe(LESSON);
  await row('no-such-thing').click();
  await expect(page.locator('.text h2')).toContainText('Push the pistons back');
  await expect.poll(selection).toContain('no-such-thing');
  expect(await clock(page)).toBe(50);
  await keys(page, 'Escape', 'ArrowUp');
  await expect(page.locator('.text h2')).toContainText('Measure the pads');
  // The key leads there too, and leaves the keys where they are.
  await keys(page, 'd');
  await expect(page.locator('.text h2')).toContainText('Push the pistons back');
  await expect(page.locator('.strip .over')).toBeFocused();
});

test('a range is shown by another camera, by key and by menu @long', async ({ page }) => {
  await open(page);
  await keys(page, 'Home', 'f');
  await expect
    .poll(() => read('recordings/pads.yaml'))
    .toBe(RECORDING.replace('out: "0:01:20"}', 'out: "0:01:20", angle: close}'));
  await saved(page);
  await expect(page.getByLabel('Camera here')).toHaveValue('close');
  // Its picture, at its own time: frame 10:00 of the recording is 8 s into it.
  await keys(page, ...Array<string>(10).fill('Shift+ArrowRight'));
  const angle = page.locator('.screen video.angle');
  await expect(angle).toBeVisible();
  await expect
    .poll(() => angle.evaluate((video) => (video as HTMLVideoElement).currentTime))
    .toBeCloseTo(8 + 0.5 / 25, 2);
  // Before it ran, the recording's own camera is shown.
  await keys(page, 'Home');
  await expect(angle).toBeHidden();
  await page.getByLabel('Camera here').selectOption('the camera files');
  await expect.poll(() => read('recordings/pads.yaml')).toBe(RECORDING);
  await saved(page);
  // In a cut there is nothing to show, and the menu says what it was.
  await expect(angle).toBeHidden();
  await keys(page, 'End');
  await expect(page.getByLabel('Camera here')).toHaveValue('');
});

test('captions that a machine wrote are read over: heard, accepted by a key, corrected where they stand', async ({
  page,
}) => {
  const caption = (start: number, text: string) => {
    const at = { start: fromSeconds<'recording'>(start), end: fromSeconds<'recording'>(start + 2) };
    const clock = (s: number) => `00:0${Math.floor(s / 60)}:${String(s % 60).padStart(2, '0')}.000`;
    return `${unreadId({ at, text })}\n${clock(start)} --> ${clock(start + 2)}\n${text}\n`;
  };
  const cues = [caption(4, 'Look in from below.'), caption(52, 'Slowly, by hound.'), caption(84, 'That was it.')];
  const written = `WEBVTT\n\n${cues.join('\n')}`;
  await writeFile(join(content, 'media/pads.vtt'), written);
  await writeFile(join(content, 'recordings/pads.yaml'), `${RECORDING}captions: media/pads.vtt\n`);
  await open(page);
  // What lies in the cut at the end is heard by nobody.
  await expect(page.locator('.clocks .unread')).toContainText('2 in all');
  await keys(page, 'Home', 'u');
  const words = page.getByLabel('Words of this caption');
  await expect(words).toHaveValue('Look in from below.');
  await expect(page.locator('.clocks .unread')).toContainText('this');
  // It plays to its end and waits there.
  await expect(page.locator('.clocks .speed')).toContainText('Stopped');
  expect(await clock(page)).toBeCloseTo(6.2, 0);
  await keys(page, 'Shift+u', 'u');
  await expect(words).toHaveValue('Slowly, by hound.');
  await expect.poll(() => read('media/pads.vtt')).toBe(written.replace(/unread-\w+\n(00:00:04)/, '$1'));
  await keys(page, 'Shift+w');
  await expect(words).toBeFocused();
  await words.fill('Slowly, by hand.');
  await keys(page, 'Enter');
  await expect(page.locator('.said')).toHaveText('every caption is read');
  await expect(page.locator('.caption.reading')).toHaveCount(0);
  await expect(page.locator('.clocks .unread')).toHaveCount(0);
  const last = written.slice(written.indexOf('unread-', written.indexOf('hound')));
  const done = `WEBVTT\n\n${written
    .slice(0, -last.length)
    .slice(8)
    .replaceAll(/unread-\w+\n/g, '')
    .replace('hound', 'hand')}${last}`;
  await expect.poll(() => read('media/pads.vtt')).toBe(done);
  await saved(page);
  await keys(page, 'Control+z', 'Control+z');
  await expect.poll(() => read('media/pads.vtt')).toBe(written);
  await saved(page);
  await writeFile(join(content, 'recordings/pads.yaml'), RECORDING);
});

test('the programme is rendered, stopped, rendered again and looked at from the page, and exported @long', async ({
  page,
}) => {
  await open(page);
  const work = page.locator('.film-work');
  const render = work.locator('.job', { hasText: 'Render the programme' });
  await work.getByRole('button', { name: 'Render the programme' }).click();
  await work.getByRole('button', { name: 'Stop: Render the programme' }).click();
  await expect(render).toContainText('stopped');
  await work.getByRole('button', { name: 'Render the programme' }).click();
  await expect(render).toContainText('done');
  await expect(render.locator('pre')).toContainText('of programme in');
  await expect(work.locator('.finished')).toContainText('0:01:20');
  // The lesson cites a spec that is not there: nothing is burnt in.
  await work.getByRole('button', { name: 'Render with cards in the picture' }).click();
  await expect(work.locator('.job.failed')).toContainText('while errors are open');
  await work.getByRole('button', { name: 'Open: Programme' }).click();
  const film = page.locator('dialog.film video');
  await expect.poll(() => film.evaluate((video: HTMLVideoElement) => Math.round(video.duration))).toBe(80);
  await page.keyboard.press('Escape');
  await expect(film).toHaveCount(0);
  await work.getByRole('combobox').selectOption('edl');
  const saving = page.waitForEvent('download');
  await work.getByRole('button', { name: 'Save the file' }).click();
  expect((await saving).suggestedFilename()).toBe('pads.edl');
});
