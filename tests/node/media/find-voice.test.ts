import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { execa } from 'execa';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { PIECE_LENGTH, PIECE_OVERLAP, VOICE_SETTINGS, VOICE_WINDOW } from '../../../src/core/media/index.ts';
import { decodeSound } from '../../../src/node/media/decoded-sound.ts';
import { findVoice, foundVoice, inPieces } from '../../../src/node/media/find-voice.ts';
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

/** Takes the first hundred samples of each piece for speech, and tells what it was given. */
function beginnings(name: string) {
  const given: number[] = [];
  const listener: Listener = {
    name,
    start: () => ({
      hear: ({ length }) => {
        given.push(length);
        return Promise.resolve([[0, 100]]);
      },
      close: () => Promise.resolve(),
    }),
  };
  return { listener, given };
}

test('sound is heard in pieces; times count from the first picture; another listener listens anew', async () => {
  await fake.answers({ writes: { output: '\u0000'.repeat(4 * 2100) } });
  const place = {
    ...{ tools: fake.tools, store, signal: new AbortController().signal },
    progress: new Progress(SILENT),
  };
  const listen = (listener: Listener, soundLate = 0.25) => {
    const params = { sound: 1, soundLate, listener: listener.name, settings: VOICE_SETTINGS };
    return runJobs([want(findVoice(listener), [{ path: '/a', content: 'a1' }], params, 10)], place);
  };
  const { listener, given } = beginnings('one');
  const [path = ''] = await listen(listener);
  expect(given).toEqual([2100]);
  const { talk } = foundVoice.parse(JSON.parse(await readFile(path, 'utf8')));
  expect(talk).toEqual([[0.25, 0.25 + 100 / 16_000]]);
  const [call = []] = await fake.calls();
  expect(call.join(' ')).toContain('[0:1]');
  // What was decoded is gone.
  expect(await readdir(dirname(call.at(-1) ?? ''))).toEqual([]);

  expect(await listen(listener)).toEqual([path]);
  expect(given).toHaveLength(1);
  const other = beginnings('another');
  expect(await listen(other.listener)).not.toEqual([path]);
  expect(other.given).toHaveLength(1);
  // Sound that begins before the picture is not told before its start.
  const [early = ''] = await listen(beginnings('one').listener, -0.004);
  expect(foundVoice.parse(JSON.parse(await readFile(early, 'utf8'))).talk[0]).toEqual([0, 100 / 16_000 - 0.004]);
});

test('pieces overlap by whole windows, and together are the sound', async () => {
  expect([PIECE_OVERLAP % VOICE_WINDOW, PIECE_LENGTH % VOICE_WINDOW]).toEqual([0, 0]);
  for (const length of [10, PIECE_LENGTH, PIECE_LENGTH + 1, 2 * PIECE_LENGTH + 1000]) {
    const pieces: { from: number; length: number }[] = [];
    for await (const piece of inPieces({ reach: async (until) => Math.min(until, length) })) pieces.push(piece);
    expect(pieces).toHaveLength(Math.ceil(length / PIECE_LENGTH));
    for (const [i, piece] of pieces.entries()) {
      const until = Math.min(length, (i + 1) * PIECE_LENGTH);
      expect([piece.from, piece.from + piece.length]).toEqual([i === 0 ? 0 : i * PIECE_LENGTH - PIECE_OVERLAP, until]);
    }
  }
});

test('an ear that breaks down is told, not waited for', async () => {
  await fake.answers({ writes: { output: '\u0000'.repeat(400) } });
  const listener: Listener = {
    name: 'deaf',
    start: () => ({ hear: () => Promise.reject(new Error('it ended')), close: () => Promise.resolve() }),
  };
  const params = { sound: 1, soundLate: 0, listener: listener.name, settings: VOICE_SETTINGS };
  const place = {
    ...{ tools: fake.tools, store, signal: new AbortController().signal },
    progress: new Progress(SILENT),
  };
  const [job, wanted] = [{ path: '/a', content: 'a1' }, findVoice(listener)];
  await expect(runJobs([want(wanted, [job], params, 10)], place)).rejects.toThrow('it ended');
});

test('what ffmpeg says when it fails is told, and nothing is kept', async () => {
  await fake.answers({ stderr: 'no such stream\n', code: 1 });
  const { listener } = beginnings('one');
  const params = { sound: 1, soundLate: 0, listener: listener.name, settings: VOICE_SETTINGS };
  const place = {
    ...{ tools: fake.tools, store, signal: new AbortController().signal },
    progress: new Progress(SILENT),
  };
  await expect(
    runJobs([want(findVoice(listener), [{ path: '/a', content: 'a1' }], params, 10)], place),
  ).rejects.toThrow('no such stream');
});

test('sound is read as far as it is decoded, and its file goes', async () => {
  const numbers = Float32Array.from({ length: 70 }, (_, i) => i / 7);
  // A part of a number at the end is none.
  const written = `${Buffer.from(numbers.buffer).toString('latin1')}\u0001\u0002`;
  await fake.answers({ writes: { output: written } });
  const sound = { path: '/a', stream: 1, beside: join(folder, 'sound.f32') };
  const read = await decodeSound(fake.tools, sound, {}, async (decoded) => {
    expect(await decoded.reach(50)).toBe(50);
    expect(await decoded.reach(1000)).toBe(70);
    return [await decoded.read(0, 16), await decoded.read(60, 1000), await decoded.read(100, 200)];
  });
  expect(read.map((samples) => [...samples])).toEqual([[...numbers.slice(0, 16)], [...numbers.slice(60)], []]);
  expect(await readdir(folder)).not.toContain('sound.f32');
});

test('who has heard enough stops the decoding', async () => {
  await fake.answers({ writes: { output: '\u0000'.repeat(400) }, hangs: true });
  const sound = { path: '/a', stream: 1, beside: join(folder, 'sound.f32') };
  expect(await decodeSound(fake.tools, sound, {}, async () => 'enough')).toBe('enough');
  expect(await readdir(folder)).not.toContain('sound.f32');
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
    const params = { sound: 0, soundLate: 0, listener: found.value.name, settings: VOICE_SETTINGS };
    const place = {
      ...{ tools: here.value, store, signal: new AbortController().signal },
      progress: new Progress(SILENT),
    };
    const [path = ''] = await runJobs(
      [want(findVoice(found.value), [{ path: clip, content: 'c1' }], params, 60)],
      place,
    );
    const { talk } = foundVoice.parse(JSON.parse(await readFile(path, 'utf8')));
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
