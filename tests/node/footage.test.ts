import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { WebVTTParser } from 'webvtt-parser';
import { SHOOTS } from '../footage/script/index.ts';
import { filesOf, framesOf } from '../footage/script/timeline.ts';
import { readFrameStrip } from '../support/frame-strip.ts';

const FRAME = 1001 / 30_000;
const present = ['ffmpeg', 'ffprobe'].every((program) => {
  try {
    execFileSync(program, ['-version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
});
const FILES = SHOOTS.flatMap((shoot) =>
  filesOf(shoot).map((part, i, all) => ({
    ...part,
    file: `content/media/${shoot.id}${all.length > 1 ? `-${i + 1}` : ''}.mp4`,
  })),
);

describe.skipIf(!present)('the footage, as ffmpeg sees it (skipped where ffmpeg is not installed)', () => {
  test.each(FILES)('$file has $frames frames, exactly as long as its part of the recording', ({ file, frames }) => {
    const shown = execFileSync(
      'ffprobe',
      [
        '-v',
        'error',
        '-select_streams',
        'v',
        '-show_entries',
        'stream=nb_frames,r_frame_rate,duration_ts,time_base,codec_name,start_time:format=duration',
        '-of',
        'json',
        file,
      ],
      { encoding: 'utf8' },
    );
    const { streams, format } = JSON.parse(shown);
    expect(streams[0]).toMatchObject({
      codec_name: 'h264',
      r_frame_rate: '30000/1001',
      nb_frames: String(frames),
      time_base: '1/30000',
      duration_ts: frames * 1001,
      start_time: '0.000000',
    });
    expect(Number(format.duration)).toBeCloseTo(frames * FRAME, 2);
  });

  // Spots that no key frame and no cue falls on.
  test.each(
    FILES.flatMap(({ file, startFrame, frames }) =>
      [0, 0.137, 0.618, 0.9].map((share) => ({ file, startFrame, at: Math.floor(frames * share) + (share ? 1 : 0) })),
    ),
  )('frame $at of $file carries its number in the recording', ({ file, startFrame, at }) => {
    const [width, height] = [320, 180];
    const args = [
      '-v',
      'error',
      '-ss',
      ((at + 0.5) * FRAME - FRAME / 2).toFixed(6),
      '-i',
      file,
      '-frames:v',
      '1',
      '-vf',
      `scale=${width}:${height}`,
      '-f',
      'rawvideo',
      '-pix_fmt',
      'rgba',
      'pipe:1',
    ];
    const data = execFileSync('ffmpeg', args, { maxBuffer: 1 << 24 });
    expect(readFrameStrip({ width, height, data })).toBe(startFrame + at);
  });
});

test.each(SHOOTS)('the captions of $id are WebVTT in order, and end before the recording does', (shoot) => {
  const { cues, errors } = new WebVTTParser({}).parse(
    readFileSync(`content/media/${shoot.id}.vtt`, 'utf8'),
    'metadata',
  );
  expect(errors).toEqual([]);
  expect(cues.length).toBeGreaterThan(100);
  for (const [i, cue] of cues.entries()) expect(cue.startTime).toBeGreaterThanOrEqual(cues[i - 1]?.endTime ?? 0);
  expect(cues.at(-1)?.endTime).toBeLessThan(framesOf(shoot) * FRAME);
});

test('it is over two hours, and at most 50 MB', () => {
  expect(SHOOTS.reduce((sum, shoot) => sum + framesOf(shoot), 0) * FRAME).toBeGreaterThan(7200);
  const media = [...FILES.map(({ file }) => file), ...SHOOTS.map(({ id }) => `content/media/${id}.vtt`)];
  expect(media.filter((file) => !existsSync(file))).toEqual([]);
  expect(media.reduce((sum, file) => sum + statSync(file).size, 0)).toBeLessThanOrEqual(50e6);
});
