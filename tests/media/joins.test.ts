import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type KeptFrames, keptFrames } from '../../src/core/media/index.ts';
import { FRAME_RATES, runtime, toSeconds } from '../../src/core/time/index.ts';
import { loadShop } from '../../src/node/files/index.ts';
import { framesShown, lagOf, samples } from './compare.ts';
import { demoCopy, dice, workspace } from './make.ts';

/** Joins in the programme, and sampling rate of the sound compared, Hz: an eighth of a millisecond a sample. */
const JOINS = 40;
const COARSE = 8000;
const RATE = FRAME_RATES['29.97df'];
const FRAME = toSeconds(RATE.ticksPerFrame);

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
});
afterAll(() => folder.remove());

/** Ranges at random moments of a recording, to the millisecond, so that few fall on a frame and fewer on a key picture. */
function randomEdit(length: number, seed: number): [string, string][] {
  const next = dice(seed);
  const slot = length / (JOINS + 1);
  return Array.from({ length: JOINS + 1 }, (_, i) => {
    const start = i * slot + next() * slot * 0.3;
    return [clock(start), clock(start + 2 + next() * slot * 0.35)];
  });
}

function clock(seconds: number): string {
  const ms = Math.round(seconds * 1000);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${Math.floor(ms / 3_600_000)}:${two(Math.floor(ms / 60_000) % 60)}:${two(Math.floor(ms / 1000) % 60)}.${String(ms % 1000).padStart(3, '0')}`;
}

test(`at ${JOINS} random joins of the demo every frame is the right one, sound is in step, and the length is that of times`, async () => {
  const content = await demoCopy(folder.path('content'));
  const before = (await loadShop(content)).shop.recordings.find(({ id }) => id === 'chain')!;
  const edit = randomEdit(toSeconds(before.length!), 40);
  await writeFile(
    join(content, 'recordings', 'chain.yaml'),
    `title: Chain\nfiles: [{file: media/chain-1.mp4}, {file: media/chain-2.mp4}]\nrate: "29.97df"\nstart: "01:00:00;00"\ncaptions: media/chain.vtt\nedit:\n${edit
      .map(([from, until]) => `  - {in: "${from}", out: "${until}"}\n`)
      .join('')}`,
  );
  const to = folder.path('out');
  const liftside = (...args: string[]) =>
    execa(process.execPath, ['src/node/cli/liftside.mjs', ...args, '--content', content]);
  await liftside('render', 'chain', '--to', to);
  const programme = join(to, 'programme.mp4');
  const recording = (await loadShop(content)).shop.recordings.find(({ id }) => id === 'chain')!;
  const kept = keptFrames(recording.edit, RATE);
  expect(kept).toHaveLength(JOINS + 1);

  // Each frame, so also those at every join, holds its own number: the picture says what it is, whatever the file claims.
  const shown = await framesShown(programme);
  const wanted = kept.flatMap(({ first, count }) => Array.from({ length: count }, (_, i) => first + i));
  expect(shown.length).toBe(wanted.length);
  expect(wrongFrames(shown, wanted)).toEqual([]);
  for (const [i, { start, end }] of recording.edit.entries()) {
    const run = kept[i]!;
    expect(Math.abs(toSeconds(start) - run.first * FRAME)).toBeLessThanOrEqual(FRAME / 2 + 1e-6);
    expect(Math.abs(toSeconds(end) - (run.first + run.count) * FRAME)).toBeLessThanOrEqual(1.5 * FRAME);
  }

  const { stdout } = await liftside('times', 'chain', '--json');
  const { programmeSeconds } = JSON.parse(stdout) as { programmeSeconds: number };
  const { video, audio } = await lengthsOf(programme);
  expect(Math.abs(video - programmeSeconds)).toBeLessThanOrEqual(FRAME);
  expect(Math.abs(video - toSeconds(runtime(recording.edit)))).toBeLessThanOrEqual(FRAME);
  // An AAC frame of 1024 samples is not divided, so that sound may end one later than the picture.
  expect(audio - video).toBeGreaterThan(-0.01);
  expect(audio - video).toBeLessThan(1024 / 48_000 + 0.001);

  const lags = await lagsOf(
    programme,
    recording.files.map(({ file, span }) => [join(content, file), toSeconds(span.start)] as const),
    kept,
  );
  expect(lags.length).toBeGreaterThan(JOINS / 2);
  // 10 ms are promised; planned are at most 470 samples, 9.8 ms, to either side. The last one says what has added
  // up until the end.
  for (const { ms } of lags) expect(Math.abs(ms)).toBeLessThan(10);
  expect(Math.abs(lags.reduce((sum, { ms }) => sum + ms, 0) / lags.length)).toBeLessThan(2);
  expect(lags.at(-1)!.run).toBeGreaterThan(JOINS - 4);
});

function wrongFrames(shown: readonly (number | undefined)[], wanted: readonly number[]): string[] {
  return wanted.flatMap((frame, at) => (shown[at] === frame ? [] : [`${at} shows ${shown[at]} instead of ${frame}`]));
}

async function lengthsOf(path: string): Promise<{ video: number; audio: number }> {
  const { stdout } = await execa('ffprobe', ['-v', 'error', '-show_streams', '-of', 'json', path]);
  const streams: { codec_type: string; start_time: string; duration: string }[] = JSON.parse(stdout).streams;
  const end = (type: string) => {
    const found = streams.find((stream) => stream.codec_type === type)!;
    return Number(found.start_time) + Number(found.duration);
  };
  return { video: end('video'), audio: end('audio') };
}

/** How late sound comes in each kept run, where it holds enough of it to tell, ms. */
async function lagsOf(
  programme: string,
  files: readonly (readonly [path: string, start: number])[],
  kept: readonly KeptFrames[],
): Promise<{ run: number; ms: number }[]> {
  const heard = await samples(programme, COARSE);
  const sources = await Promise.all(files.map(([path]) => samples(path, COARSE)));
  const length = COARSE;
  const reach = 0.05 * COARSE;
  return kept.flatMap((run, i) => {
    const from = run.first * FRAME;
    const file = files.findLastIndex(([, start]) => start <= from);
    const source = sources[file]!;
    const sample = (seconds: number) => Math.round(seconds * COARSE);
    const [first, last] = [sample(0.1), sample(run.count * FRAME) - length - 2 * reach];
    // The loudest second of the run, if it is loud enough.
    let best = { level: 0, at: 0 };
    for (let at = first; at < last; at += COARSE / 10) {
      const start = sample(from - files[file]![1]) + at;
      const level = source.subarray(start, start + length).reduce((sum, value) => sum + value * value, 0);
      if (level > best.level) best = { level, at };
    }
    if (best.level / length < 0.001) return [];
    const lag = lagOf(
      heard,
      sample(run.at * FRAME) + best.at,
      source,
      sample(from - files[file]![1]) + best.at,
      length,
      reach,
    );
    return [{ run: i, ms: (lag / COARSE) * 1000 }];
  });
}
