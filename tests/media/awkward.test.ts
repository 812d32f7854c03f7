import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { TICKS_PER_SECOND } from '../../src/core/time/index.ts';
import { AWKWARD } from './awkward.ts';
import { workspace } from './make.ts';
import { recordingIn, shopWith } from './shop.ts';

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

test.each(AWKWARD.map((one, i) => [one.name, i] as const))('%s', async (_, index) => {
  const { files, make, expect: wanted } = AWKWARD[index]!;
  const content = folder.path(`shop-${index}`);
  await mkdir(join(content, 'media'), { recursive: true });
  await make((name) => join(content, 'media', name));
  const list = files.map((name) => `  - file: ${JSON.stringify(`media/${name}`)}`).join('\n');
  await shopWith(content, `title: Take\nfiles:\n${list}\n`);
  const recording = await recordingIn(content);
  const rendered = await execa(
    'npx',
    ['node', 'src/node/cli/liftside.mjs', 'render', 'take', '--content', content, '--to', join(content, 'out')],
    { reject: false, all: true, env: { NO_COLOR: '1' } },
  );
  if (wanted.told) expect(rendered.all).toMatch(wanted.told);
  expect(rendered.all).not.toMatch(/\n\s+at /);
  if (wanted.sound === undefined) {
    expect(rendered.exitCode).toBe(3);
    return;
  }
  expect(rendered.all.split('\n').filter((line) => /fail|error/i.test(line))).toEqual([]);
  expect(rendered.exitCode).toBe(0);
  const { stdout } = await execa('ffprobe', [
    '-v',
    'error',
    '-show_streams',
    '-of',
    'json',
    join(content, 'out', 'programme.mp4'),
  ]);
  const streams: {
    codec_type: string;
    codec_name: string;
    width?: number;
    height?: number;
    duration: string;
    side_data_list?: { rotation?: number }[];
  }[] = JSON.parse(stdout).streams;
  const video = streams.find((s) => s.codec_type === 'video')!;
  const turned = (video.side_data_list?.[0]?.rotation ?? 0) % 180 !== 0;
  const [width, height] = turned ? [video.height, video.width] : [video.width, video.height];
  expect(video.codec_name).toBe('h264');
  if (wanted.width) expect(width).toBe(wanted.width);
  if (wanted.height) expect(height).toBe(wanted.height);
  expect(streams.some((s) => s.codec_type === 'audio')).toBe(wanted.sound);
  const length = (recording.length ?? 0) / TICKS_PER_SECOND;
  expect(Math.abs(Number(video.duration) - length)).toBeLessThan(0.05);
  if (wanted.seconds) expect(Math.abs(length - wanted.seconds)).toBeLessThan(0.1);
  else expect(length).toBeGreaterThan(wanted.atLeast ?? 3);
  const decoded = await execa('ffmpeg', [
    '-v',
    'error',
    '-nostdin',
    '-i',
    join(content, 'out', 'programme.mp4'),
    '-f',
    'null',
    '-',
  ]);
  expect(decoded.stderr).toBe('');
});
