import { createHash } from 'node:crypto';
import { mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { EncodedPacketSink } from 'mediabunny';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fromSeconds, nearestRate, range, toSeconds } from '../../../src/core/time/index.ts';
import { openMedia } from '../../../src/node/media/camera-formats.ts';
import { makeOpenings, type OpeningMade } from '../../../src/node/media/openings.ts';
import { probeFile } from '../../../src/node/media/probe.ts';

const FILM = resolve(import.meta.dirname, '../../../content/media/front-brake.mp4');
const { signal } = new AbortController();

let content: string;
let frame: number;
let made: OpeningMade;
const wanted = (path: string, from: number, to: number) => ({
  ...{ path, frame },
  stretch: range(fromSeconds<'programme'>(from), fromSeconds<'programme'>(to)),
});

beforeAll(async () => {
  content = await mkdtemp(join(tmpdir(), 'liftside-openings-'));
  const probed = await probeFile(FILM);
  if (!probed.ok) throw new Error(probed.problem);
  frame = nearestRate(probed.value.framesPerSecond ?? 0)!.ticksPerFrame;
  const [one] = await makeOpenings(content, [wanted(FILM, 1117.3, 1129.8)], signal);
  made = one!;
});
afterAll(() => rm(content, { recursive: true }));

/** Coded pictures or pieces of sound of a file: time on its clock, s, and sum of the bytes. */
async function packets(path: string, kind: 'picture' | 'sound', from = 0, to = Number.POSITIVE_INFINITY) {
  const input = openMedia(path);
  try {
    const track = kind === 'picture' ? await input.getPrimaryVideoTrack() : await input.getPrimaryAudioTrack();
    const sink = new EncodedPacketSink(track!);
    const found: { at: number; key: boolean; sum: string }[] = [];
    const first = (await sink.getPacket(from)) ?? (await sink.getFirstPacket());
    for await (const { timestamp, type, data } of sink.packets(first!)) {
      if (timestamp > to) break;
      found.push({ at: timestamp, key: type === 'key', sum: createHash('md5').update(data).digest('hex') });
    }
    return found;
  } finally {
    input.dispose();
  }
}

test('an opening begins with the picture from which its stretch can be decoded, and holds all of the stretch', async () => {
  const [start, end] = [toSeconds(made.holds.start), toSeconds(made.holds.end)];
  expect(start).toBeLessThanOrEqual(1117.3);
  expect(end).toBeCloseTo(1129.8, 6);
  const [copied, film] = [await packets(made.file, 'picture'), await packets(FILM, 'picture', start, end)];
  expect(copied[0]).toMatchObject({ at: 0, key: true });
  // No later key picture would have done.
  expect(film.filter(({ at, key }) => key && at > start + 1e-3 && at <= 1117.3)).toEqual([]);
  expect(copied.map(({ sum }) => sum)).toEqual(film.slice(0, copied.length).map(({ sum }) => sum));
  for (const [i, { at }] of copied.entries()) expect(at + start).toBeCloseTo(film[i]!.at, 4);
  expect(copied.at(-1)!.at + start + toSeconds(frame)).toBeCloseTo(end, 1);
});

test('its sound is that of the film, at the same moments', async () => {
  const start = toSeconds(made.holds.start);
  const copied = await packets(made.file, 'sound');
  const film = await packets(FILM, 'sound', start, start + copied.at(-1)!.at + 1e-3);
  const heard = new Map(film.map(({ at, sum }) => [sum, at]));
  expect(copied.length).toBeGreaterThan(190);
  for (const { at, sum } of copied) expect(at + start).toBeCloseTo(heard.get(sum) ?? Number.NaN, 3);
});

test('its index stands first and is small: a picture comes with the first bytes', async () => {
  // ISO/IEC 14496-12, 4.2: each box begins with its size, 32 bits, big-endian, and its type.
  const bytes = await readFile(made.file);
  const boxes: { type: string; size: number }[] = [];
  for (let at = 0; at < bytes.length; at += boxes.at(-1)!.size)
    boxes.push({ type: bytes.toString('latin1', at + 4, at + 8), size: bytes.readUInt32BE(at) });
  expect(boxes.map(({ type }) => type)).toEqual(['ftyp', 'moov', 'mdat']);
  expect(boxes[1]!.size).toBeLessThan(12_000);
});

test('made once, it is found again; the same film makes the same bytes elsewhere', async () => {
  const { ino } = await stat(made.file);
  const [again] = await makeOpenings(content, [wanted(FILM, 1117.3, 1129.8)], signal);
  expect(again).toEqual(made);
  // Not written anew.
  expect((await stat(made.file)).ino).toBe(ino);
  expect((await readdir(join(content, '.liftside/media'))).length).toBe(1);
  const other = await mkdtemp(join(tmpdir(), 'liftside-openings-'));
  const [elsewhere] = await makeOpenings(other, [wanted(FILM, 1117.3, 1129.8)], signal);
  expect((await readFile(elsewhere!.file)).equals(await readFile(made.file))).toBe(true);
  await rm(other, { recursive: true });
});

test('a film that cannot be copied from has none, and the others have theirs', async () => {
  const broken = join(content, 'broken.mp4');
  await writeFile(broken, 'no film');
  const both = await makeOpenings(content, [wanted(broken, 0, 10), wanted(FILM, 1117.3, 1129.8)], signal);
  expect(both).toEqual([undefined, made]);
});
