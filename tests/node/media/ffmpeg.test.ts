import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { cameraInput } from '../../../src/core/media/index.ts';
import { OutsideFailure } from '../../../src/node/failure.ts';
import { runFfmpeg, runFfprobe } from '../../../src/node/media/ffmpeg.ts';
import { findTools } from '../../../src/node/media/tools.ts';
import { FakeFfmpeg } from '../../support/fake-ffmpeg.ts';

let fake: FakeFfmpeg;
beforeAll(async () => {
  fake = await FakeFfmpeg.make();
});
afterAll(() => fake.remove());
beforeEach(() => rm(join(fake.folder, 'calls'), { force: true }));

const failure = async (work: Promise<unknown>) => {
  const error = await work.then(
    () => undefined,
    (reason: unknown) => reason,
  );
  return error instanceof OutsideFailure ? { problem: error.message, help: error.help } : error;
};

describe('ffmpeg', () => {
  test('is quiet, asks nothing, writes over what is there, and tells how far it is', async () => {
    await fake.answers({
      stdout: 'frame=1\nout_time_us=1500000\nprogress=continue\nout_time_us=N/A\nout_time_us=20000000\n',
    });
    const seconds: number[] = [];
    await runFfmpeg(fake.tools, ['-i', 'a b.mp4', 'out.mp4'], { onSeconds: (at) => seconds.push(at) });
    expect(seconds).toEqual([1.5, 20]);
    expect(await fake.calls()).toEqual([
      ['-hide_banner', '-nostdin', '-v', 'error', '-nostats', '-progress', 'pipe:1', '-y', '-i', 'a b.mp4', 'out.mp4'],
    ]);
  });

  test('that fails does so in its own last words', async () => {
    await fake.answers({ stderr: 'one\ntwo\nthree\nfour\n', code: 1 });
    expect(await failure(runFfmpeg(fake.tools, []))).toEqual({
      problem: 'ffmpeg 9.9 failed: two · three · four',
      help: 'see what it says about the file',
    });
  });

  test('that says nothing is told by its code', async () => {
    await fake.answers({ code: 187 });
    expect(await failure(runFfmpeg(fake.tools, []))).toMatchObject({
      problem: 'ffmpeg 9.9 failed: it ended with code 187',
    });
  });

  test('that the system ends may lack memory', async () => {
    await fake.answers({ signal: 'SIGKILL' });
    expect(await failure(runFfmpeg(fake.tools, []))).toEqual({
      problem: 'ffmpeg 9.9 failed: the system stopped it with SIGKILL',
      help: expect.stringContaining('out of memory'),
    });
  });

  test.each([
    ['No space left on device', 1],
    ['No space left on device', 0],
    ['Disk quota exceeded', 1],
    ['File too large', 1],
    ['Error writing trailer of out.mp4', 0],
  ])('that remarks "%s" and ends with %d has a full disk', async (stderr, code) => {
    await fake.answers({ stderr, code });
    expect(await failure(runFfmpeg(fake.tools, []))).toEqual({
      problem: `ffmpeg 9.9 could not write on: the disk is full, or a file may not grow further (${stderr})`,
      help: 'free some space on the disk, then run it again: what is done is kept',
    });
  });

  test('is not started for work that was given up, and stopped when it is given up', async () => {
    const given = new AbortController();
    given.abort(new Error('given up'));
    expect(await failure(runFfmpeg(fake.tools, [], { signal: given.signal }))).toMatchObject({ message: 'given up' });
    expect(await fake.calls()).toEqual([]);

    await fake.answers({ hangs: true });
    const later = new AbortController();
    const running = failure(runFfmpeg(fake.tools, [], { signal: later.signal }));
    await vi.waitUntil(async () => (await fake.calls()).length === 1, { timeout: 60_000 });
    later.abort(new Error('enough'));
    expect(await running).toMatchObject({ message: 'enough' });
  });
});

describe('ffprobe', () => {
  test('answers in JSON', async () => {
    await fake.answers({ stdout: '{"streams": []}' });
    expect(await runFfprobe(fake.tools, ['-show_streams'], '/a.mp4')).toEqual({ streams: [] });
    expect(await fake.calls()).toEqual([['-v', 'error', '-of', 'json', '-show_streams', ...cameraInput('/a.mp4')]]);
  });
  test('fails in words', async () => {
    await fake.answers({ stderr: 'a.mp4: Invalid data', code: 1 });
    expect(await failure(runFfprobe(fake.tools, [], '/a.mp4'))).toMatchObject({
      problem: 'ffmpeg 9.9 failed: a.mp4: Invalid data',
    });
  });
});

describe('finding it', () => {
  const about = (version: string, encoders = [' V....D libx264', ' A....D aac', ' A....D libopus']) => ({
    stdout: `ffmpeg version ${version} Copyright\nEncoders:\n${encoders.join('\n')}\n`,
  });
  const find = (more: Record<string, string> = {}) => findTools({ PATH: fake.folder, ...more });
  const problem = async (found: ReturnType<typeof find>) => {
    const read = await found;
    return read.ok ? 'found' : read.problem;
  };

  test.each([
    ['5.0.3', 'ffmpeg 5.0.3 is too old; 5.1 or newer is needed'],
    ['4.4', 'ffmpeg 4.4 is too old; 5.1 or newer is needed'],
    ['5.1', 'found'],
    ['5.2.1-0+deb12u1', 'found'],
    ['6.0', 'found'],
    ['n7.1', 'found'],
    ['N-109468-gd39b34123d', 'found'],
  ])('version %s: %s', async (version, answer) => {
    await fake.answers(about(version));
    expect(await problem(find())).toBe(answer);
  });

  test('what it is and can do is told', async () => {
    await fake.answers(about('5.1.9'));
    expect(await find()).toEqual({
      ok: true,
      value: { ...fake.tools, version: '5.1.9', encoders: new Set(['libx264', 'aac', 'libopus']) },
    });
  });

  test('one without an encoder that every programme needs is no use', async () => {
    await fake.answers(about('6.1', [' A....D aac']));
    expect(await problem(find())).toBe('ffmpeg 6.1 was built without libx264');
    await fake.answers(about('6.1', []));
    expect(await problem(find())).toBe('ffmpeg 6.1 was built without libx264 and aac');
  });

  test('one that is not there, cannot be run, or comes without ffprobe is told so', async () => {
    expect(await problem(findTools({ PATH: '/nowhere' }))).toBe('ffmpeg is not installed');
    const folder = await mkdtemp(join(tmpdir(), 'liftside-alone-'));
    const alone = join(folder, 'ffmpeg');
    await writeFile(alone, 'not a program');
    expect(await problem(findTools({ PATH: '/nowhere', LIFTSIDE_FFMPEG: alone }))).toBe(
      `LIFTSIDE_FFMPEG names ${alone}, which cannot be run`,
    );
    await writeFile(alone, `#!/bin/sh\necho ffmpeg version 6.1\n`, { mode: 0o755 });
    await rm(alone);
    await writeFile(alone, `#!/bin/sh\necho ffmpeg version 6.1\n`, { mode: 0o755 });
    expect(await problem(findTools({ PATH: '/nowhere', LIFTSIDE_FFMPEG: alone }))).toBe(
      `ffprobe, which belongs to ffmpeg, was not found beside ${alone} or on PATH`,
    );
    await rm(folder, { recursive: true });
  });
});
