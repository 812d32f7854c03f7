import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { TICKS_PER_SECOND } from '../../src/core/time/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { probeFile } from '../../src/node/media/probe.ts';
import { AWKWARD } from './awkward.ts';
import { ffmpeg, testPicture, workspace } from './make.ts';

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

async function facts(path: string) {
  const probed = await probeFile(path);
  if (!probed.ok) throw new Error(probed.problem);
  return probed.value;
}

/** Presentation times of the pictures by ffprobe, which decodes every one, s from the first. */
async function byFfprobe(path: string): Promise<number[]> {
  const asked = ['-select_streams', 'v:0', '-show_entries', 'frame=pts_time', '-of', 'json', path];
  const { stdout } = await execa('ffprobe', ['-v', 'error', ...asked]);
  const times = JSON.parse(stdout).frames.map((frame: { pts_time: string }) => Number(frame.pts_time));
  return times.map((time: number) => time - times[0]);
}

async function sameAsFfprobe(path: string): Promise<number> {
  const { pictureStarts = [] } = await facts(path);
  const told = await byFfprobe(path);
  expect(pictureStarts.length).toBe(told.length);
  // ffprobe prints microseconds.
  for (const [i, time] of told.entries()) expect((pictureStarts[i] ?? 0) / TICKS_PER_SECOND).toBeCloseTo(time, 5);
  return told.length;
}

const phone = AWKWARD.find(({ name }) => name.includes('variable frame rate'));

test('the pictures of a phone are listed at the times ffprobe gives', async () => {
  await phone?.make(folder.path);
  expect(await sameAsFfprobe(folder.path('phone.mp4'))).toBeGreaterThan(150);
});

test('a file that turns uneven only later is found out too', async () => {
  const late = folder.path('late.mp4');
  // Even for 15 of 30 s; then every third picture is left out, as phones do where it gets dark.
  const dark = "select='lt(t,15)+not(eq(mod(n,3),1))'";
  await ffmpeg(
    ...testPicture('160x90', '30', 30),
    '-vf',
    dark,
    '-fps_mode',
    'vfr',
    '-preset',
    'ultrafast',
    '-g',
    '30',
    late,
  );
  expect((await facts(late)).pictures[0]?.even).toBe(false);
  expect(await sameAsFfprobe(late)).toBeGreaterThan(700);
});

test('a container that only ffmpeg reads is measured by ffprobe', async () => {
  const flash = folder.path('uneven.flv');
  const uneven = "select='not(eq(mod(n,7),3))',setpts='PTS+mod(N*7919,13)*0.0008/TB'";
  await ffmpeg(
    ...testPicture('160x90', '30', 6),
    '-vf',
    uneven,
    '-fps_mode',
    'vfr',
    '-enc_time_base',
    '1:1000',
    '-c:v',
    'flv1',
    flash,
  );
  expect(await sameAsFfprobe(flash)).toBeGreaterThan(100);
});

test.each(['24000/1001', '25', '30000/1001', '60'])('at an even %s nothing is listed', async (rate) => {
  for (const kind of ['mp4', 'mkv']) {
    const path = folder.path(`even-${rate.replace('/', '-')}.${kind}`);
    await ffmpeg(...testPicture('160x90', rate, 12), '-c:v', 'libx264', '-bf', '3', '-preset', 'ultrafast', path);
    const { pictureStarts, pictures } = await facts(path);
    expect([pictureStarts, pictures[0]?.even]).toEqual([undefined, true]);
  }
});

test('cues and points of a phone recording lie on its pictures, as ffprobe times them', async () => {
  const content = folder.path('shop');
  for (const name of ['recordings', 'lessons', 'media']) await mkdir(join(content, name), { recursive: true });
  await phone?.make((name) => join(content, 'media', name));
  await writeFile(
    join(content, 'recordings', 'phone.yaml'),
    'title: By phone\nfiles:\n  - file: media/phone.mp4\nedit:\n  - {in: "0:00:01.01", out: "0:00:04.5"}\n',
  );
  await writeFile(
    join(content, 'lessons', 'phone.mdx'),
    '---\ntitle: By phone\nrecording: phone\nmachine: tarn-420\n---\n## One\n<Cue at="0:00:02.02" until="0:00:03.003" />\n',
  );
  const times = await byFfprobe(join(content, 'media', 'phone.mp4'));
  const down = (s: number) => Math.max(...times.filter((time) => time <= s + 0.001));
  const up = (s: number) => Math.min(...times.filter((time) => time >= s - 0.001));
  // Read twice: by the probe, and from what it kept.
  for (const _ of [1, 2]) {
    const { shop } = await loadShop(content);
    const [kept] = shop.recordings[0]?.edit ?? [];
    const cue = shop.lessons[0]?.chapters[0]?.cue;
    const seconds = [kept?.start, kept?.end, cue?.at, cue?.until].map((at) => (at ?? 0) / TICKS_PER_SECOND);
    for (const [i, told] of [down(1.01), up(4.5), down(2.02), up(3.003)].entries())
      expect(seconds[i]).toBeCloseTo(told, 5);
  }
});
