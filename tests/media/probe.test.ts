import { writeFile } from 'node:fs/promises';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { TICKS_PER_SECOND } from '../../src/core/time/index.ts';
import { probeFile } from '../../src/node/media/probe.ts';
import { ffmpeg, testPicture, tone, workspace } from './make.ts';

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

async function probed(path: string) {
  const result = await probeFile(path);
  if (!result.ok) throw new Error(result.problem);
  return result.value;
}

// Compared with ffprobe's own count of decoded frames and its reading of the timecode track.
test.each([
  ['25', '01:00:00:00', 'mp4'],
  ['30000/1001', '09:59:59;28', 'mov'],
  ['60000/1001', '00:01:00;04', 'mp4'],
])('length, rate and start timecode at %s frames a second', async (rate, timecode, kind) => {
  const path = folder.path(`tc-${rate.replace('/', '-')}.${kind}`);
  await ffmpeg(
    ...testPicture('160x90', rate, 3),
    ...tone(440, 3.2),
    '-timecode',
    timecode,
    '-preset',
    'ultrafast',
    path,
  );
  const { stdout } = await execa('ffprobe', [
    '-v',
    'error',
    '-count_frames',
    '-select_streams',
    'v:0',
    '-show_entries',
    'stream=nb_read_frames,r_frame_rate:stream_tags=timecode',
    '-of',
    'json',
    path,
  ]);
  const [stream] = JSON.parse(stdout).streams;
  const [numerator, denominator] = stream.r_frame_rate.split('/').map(Number);
  const facts = await probed(path);
  expect(facts.framesPerSecond).toBeCloseTo(numerator / denominator, 6);
  expect(facts.duration).toBe((Number(stream.nb_read_frames) * TICKS_PER_SECOND * denominator) / numerator);
  expect(facts.startTimecode).toBe(stream.tags.timecode);
  expect(facts.startTimecode).toBe(timecode);
  expect(facts.sounds).toMatchObject([{ codec: 'aac', channels: 1, sampleRate: 48_000 }]);
});

test('a picture turned by its camera is told as it is shown', async () => {
  const flat = folder.path('flat.mp4');
  const turned = folder.path('turned.mp4');
  await ffmpeg(...testPicture('160x90', '25', 1), '-preset', 'ultrafast', flat);
  await ffmpeg('-i', flat, '-c', 'copy', '-metadata:s:v', 'rotate=90', turned);
  const facts = await probed(turned);
  // ffprobe counts the turn against the clock (libavutil/display.h), we with it.
  const { stdout } = await execa('ffprobe', ['-v', 'error', '-show_streams', '-of', 'json', turned]);
  const [{ rotation }] = JSON.parse(stdout).streams[0].side_data_list;
  expect(rotation % 360).not.toBe(0);
  expect([facts.width, facts.height, facts.pictures[0]?.rotation]).toEqual([90, 160, (360 - rotation) % 360]);
});

test('what is no media is told apart: missing, empty, of another kind', async () => {
  await writeFile(folder.path('empty.mp4'), '');
  await writeFile(folder.path('words.mp4'), 'not a video');
  const problems = await Promise.all(
    ['none.mp4', 'empty.mp4', 'words.mp4'].map(async (name) => {
      const result = await probeFile(folder.path(name));
      return result.ok ? '' : result.problem;
    }),
  );
  expect(problems).toEqual(['there is no such file', 'the file is empty', 'it is not a media file that can be read']);
});
