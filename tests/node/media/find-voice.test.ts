import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { execa } from 'execa';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { VOICE_SETTINGS, VOICE_WINDOW, voiceArgs } from '../../../src/core/media/index.ts';
import { streamFfmpeg } from '../../../src/node/media/ffmpeg.ts';
import { findVoice, foundVoice, inWindows } from '../../../src/node/media/find-voice.ts';
import { findListener, type Listener } from '../../../src/node/media/listener.ts';
import { runJobs, want } from '../../../src/node/media/pool.ts';
import { Progress, SILENT } from '../../../src/node/media/progress.ts';
import { Store } from '../../../src/node/media/store.ts';
import { findTools } from '../../../src/node/media/tools.ts';
import { FakeFfmpeg } from '../../support/fake-ffmpeg.ts';

let folder: string;
let fake: FakeFfmpeg;
let store: Store;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-voice-'));
  fake = await FakeFfmpeg.make();
  store = await Store.open(folder);
});
afterEach(async () => {
  await store.close();
  await rm(folder, { recursive: true, force: true });
  await fake.remove();
});

/** Takes every second window for speech, and tells how much it was given. */
function alternating(name: string) {
  const given: number[] = [];
  const listener: Listener = {
    name,
    listen: () => {
      let at = 0;
      return {
        hear: (samples) => {
          given.push(samples.length);
          at += samples.length;
          return given.length % 2 === 0 ? [[(at - samples.length) / 16_000, at / 16_000]] : [];
        },
        end: () => [[9, 9.5]],
      };
    },
  };
  return { listener, given };
}

test('sound is heard window by window; times count from the first picture; another listener listens anew', async () => {
  await fake.answers({ stdout: '\u0000'.repeat(4 * (512 * 4 + 100)) });
  const place = {
    ...{ tools: fake.tools, store, signal: new AbortController().signal },
    progress: new Progress(SILENT),
  };
  const listen = (listener: Listener, soundLate = 0.25) => {
    const params = { sound: 1, soundLate, listener: listener.name, settings: VOICE_SETTINGS };
    return runJobs([want(findVoice(listener), [{ path: '/a', content: 'a1' }], params, 10)], place);
  };
  const { listener, given } = alternating('one');
  const [path = ''] = await listen(listener);
  expect(given).toEqual([512, 512, 512, 512, 100]);
  const { talk } = foundVoice.parse(JSON.parse(await readFile(path, 'utf8')));
  expect(talk).toEqual([
    [0.25 + 512 / 16_000, 0.25 + 1024 / 16_000],
    [0.25 + 1536 / 16_000, 0.25 + 2048 / 16_000],
    [9.25, 9.75],
  ]);
  const [call = []] = await fake.calls();
  expect(call.join(' ')).toContain('[0:1]');
  expect(call.slice(-3)).toEqual(['-f', 'f32le', 'pipe:1']);

  expect(await listen(listener)).toEqual([path]);
  expect(given).toHaveLength(5);
  const other = alternating('another');
  expect(await listen(other.listener)).not.toEqual([path]);
  expect(other.given).toHaveLength(5);
  // Sound that begins before the picture is not told before its start.
  const [early = ''] = await listen(alternating('one').listener, -0.04);
  expect(foundVoice.parse(JSON.parse(await readFile(early, 'utf8'))).talk[0]).toEqual([0, 1024 / 16_000 - 0.04]);
});

test('what ffmpeg says when it fails is told, and nothing is kept', async () => {
  await fake.answers({ stderr: 'no such stream\n', code: 1 });
  const { listener } = alternating('one');
  const params = { sound: 1, soundLate: 0, listener: listener.name, settings: VOICE_SETTINGS };
  const place = {
    ...{ tools: fake.tools, store, signal: new AbortController().signal },
    progress: new Progress(SILENT),
  };
  await expect(
    runJobs([want(findVoice(listener), [{ path: '/a', content: 'a1' }], params, 10)], place),
  ).rejects.toThrow('no such stream');
});

test('numbers that lie across two parts are whole again', async () => {
  const numbers = Float32Array.from({ length: 70 }, (_, i) => i / 7);
  const bytes = new Uint8Array(numbers.buffer);
  for (const size of [1, 3, 7, 64, 1000]) {
    const parts = Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) =>
      bytes.subarray(i * size, (i + 1) * size),
    );
    const windows: Float32Array[] = [];
    for await (const window of inWindows(parts, 16)) windows.push(window);
    expect(windows.map(({ length }) => length)).toEqual([16, 16, 16, 16, 6]);
    expect(windows.flatMap((window) => [...window])).toEqual([...numbers]);
  }
});

const here = await findTools(process.env);
test.skipIf(!here.ok)(
  'on the demo somebody speaks until the bench is empty, and not after (needs ffmpeg)',
  async () => {
    const found = await findListener();
    if (!here.ok || !found.ok) throw new Error(found.ok ? 'ffmpeg' : found.problem);
    // The chapter ends at 222.6 s of the recording, the next one begins at 285.8 s: the shooting script.
    const clip = join(folder, 'clip.mp4');
    const cut = ['-y', '-v', 'error', '-ss', '200', '-t', '60', '-i', 'content/media/chain-1.mp4', '-vn', '-c', 'copy'];
    await execa(here.value.ffmpeg, [...cut, clip]);
    const listening = found.value.listen();
    const talk: (readonly [number, number])[] = [];
    for await (const samples of inWindows(streamFfmpeg(here.value, voiceArgs(clip, 0)), VOICE_WINDOW))
      talk.push(...listening.hear(samples));
    talk.push(...listening.end());
    expect(talk.reduce((sum, [start, end]) => sum + end - start, 0)).toBeGreaterThan(4);
    expect(talk.at(-1)?.[1]).toBeLessThan(23);
  },
);

test('without its file there is no network, and it is told what to do', async () => {
  expect(await findListener(join(folder, 'none.onnx'))).toMatchObject({
    ok: false,
    problem: expect.stringContaining('none.onnx'),
    help: expect.stringContaining('install'),
  });
});
