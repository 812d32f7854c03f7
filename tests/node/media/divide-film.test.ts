import { createHash } from 'node:crypto';
import { mkdtemp, readFile, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { EncodedPacketSink } from 'mediabunny';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { planFilmParts } from '../../../src/core/media/index.ts';
import { type Range, range, TICKS_PER_SECOND, ticks, toSeconds } from '../../../src/core/time/index.ts';
import { openMedia } from '../../../src/node/media/camera-formats.ts';
import { copyStretch, dividePoints } from '../../../src/node/media/divide-film.ts';
import { probeFile } from '../../../src/node/media/probe.ts';

const FOOTAGE = resolve(import.meta.dirname, '../../../content/media/front-brake.mp4');
const LARGEST = 200_000;

let folder: string;
let film: string;
let frame: number;
let spans: readonly Range<'programme'>[];
const part = (i: number) => join(folder, `${i}.mp4`);
const copy = (from: string, span: Range<'programme'>, to: string) =>
  copyStretch(from, span, frame, to, { signal: new AbortController().signal, wrote: () => {} });

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-divide-'));
  film = join(folder, 'film.mp4');
  const probed = await probeFile(FOOTAGE);
  if (!probed.ok) throw new Error(probed.problem);
  frame = TICKS_PER_SECOND / (probed.value.framesPerSecond ?? 0);
  const whole = await dividePoints(FOOTAGE, frame);
  expect(whole.end.at).toBe(probed.value.duration);
  // A minute of it is enough to be divided.
  const minute = whole.points.findLast(({ at }) => at <= 60 * TICKS_PER_SECOND)?.at ?? ticks(0);
  await copy(FOOTAGE, range(ticks(0), minute), film);
  const { points, end } = await dividePoints(film, frame);
  const plan = planFilmParts(points, end, [ticks(20 * TICKS_PER_SECOND)], LARGEST);
  if (!plan.ok) throw new Error(plan.problem);
  spans = plan.value;
  for (const [i, span] of spans.entries()) await copy(film, span, part(i));
});
afterAll(() => rm(folder, { recursive: true }));

/** Coded pictures or pieces of sound of a file: time on its clock, s, and sum of the bytes. */
async function packets(path: string, kind: 'picture' | 'sound') {
  const input = openMedia(path);
  try {
    const track = kind === 'picture' ? await input.getPrimaryVideoTrack() : await input.getPrimaryAudioTrack();
    if (!track) throw new Error(`${path} has no ${kind}`);
    const found: { at: number; end: number; sum: string }[] = [];
    for await (const { timestamp, duration, data } of new EncodedPacketSink(track).packets())
      found.push({ at: timestamp, end: timestamp + duration, sum: createHash('md5').update(data).digest('hex') });
    return found;
  } finally {
    input.dispose();
  }
}

test('every part is small enough, begins with its first picture, and together they hold every picture once', async () => {
  expect(spans.length).toBeGreaterThan(2);
  const whole = await packets(film, 'picture');
  const sums: string[] = [];
  for (const [i, span] of spans.entries()) {
    expect((await stat(part(i))).size).toBeLessThanOrEqual(LARGEST);
    const pictures = await packets(part(i), 'picture');
    expect(Math.min(...pictures.map(({ at }) => at))).toBe(0);
    expect(pictures.length).toBe(Math.round((span.end - span.start) / frame));
    // Each picture is shown at its own frame, to the clock of the file.
    for (const { at } of pictures) {
      const place = (at * TICKS_PER_SECOND) / frame;
      expect(Math.abs(place - Math.round(place))).toBeLessThan(0.01);
    }
    sums.push(...pictures.map(({ sum }) => sum));
  }
  expect(sums).toEqual(whole.map(({ sum }) => sum));
});

test('sound lies under its pictures, without a gap, and runs over the end of a part', async () => {
  const whole = await packets(film, 'sound');
  const at = new Map(whole.map(({ sum, at }) => [sum, at]));
  for (const [i, span] of spans.entries()) {
    const sounds = await packets(part(i), 'sound');
    const [first, last] = [sounds[0]!, sounds.at(-1)!];
    // A millisecond is less than what the ear tells apart.
    expect(Math.abs(first.at + toSeconds(span.start) - (at.get(first.sum) ?? 0))).toBeLessThan(0.001);
    if (i > 0) expect(first.at).toBeLessThanOrEqual(0);
    if (i < spans.length - 1) expect(last.end).toBeGreaterThanOrEqual(toSeconds(ticks(span.end - span.start)) - 0.001);
    sounds.slice(1).forEach((sound, n) => {
      expect(Math.abs(sound.at - sounds[n]!.end)).toBeLessThan(0.001);
    });
  }
});

test('the same stretch is the same bytes, with the index before the film', async () => {
  const again = join(folder, 'again.mp4');
  await copy(film, spans[1]!, again);
  const bytes = await readFile(again);
  expect(bytes.equals(await readFile(part(1)))).toBe(true);
  expect(bytes.indexOf('moov')).toBeLessThan(bytes.indexOf('mdat'));
});
