import { readFile, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { execa } from 'execa';
import { Parser } from 'm3u8-parser';
import { ALL_FORMATS, BufferSource, Input } from 'mediabunny';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { onPath } from '../../src/node/programs/index.ts';
import { decode, lagOf, nearestFrame, samples, soundAlone } from './compare.ts';
import { BrowserPlayer, latenessOf } from './in-browser.ts';
import { ffmpeg, testPicture, workspace } from './make.ts';
import { shopWith } from './shop.ts';

/** Programme of 17.9 s at 30000/1001, with one cut. */
const FRAME = 1001 / 30_000;
const MKVINFO = await onPath(['mkvinfo'], process.env);
let folder: Awaited<ReturnType<typeof workspace>>;
let out: string;
let player: BrowserPlayer;

beforeAll(async () => {
  folder = await workspace();
  const content = await shopWith(
    folder.path('shop'),
    'title: Take\nfiles: [{file: media/a.mp4}]\nedit:\n  - {in: "0:00:01.3", out: "0:00:09.4"}\n  - {in: "0:00:10.1", out: "0:00:19.9"}\n',
  );
  const noise = ['-f', 'lavfi', '-i', 'anoisesrc=c=pink:r=48000:a=0.3:d=20,tremolo=f=0.7:d=0.8'];
  // Calm at first, then restless: bit rates differ from segment to segment.
  const restless = ['-vf', "noise=alls=8:allf=t:enable='gt(t,8)'", '-preset', 'veryfast', '-g', '60', '-c:a', 'aac'];
  await ffmpeg(...testPicture('640x360', '30000/1001', 20), ...noise, ...restless, `${content}/media/a.mp4`);
  out = folder.path('out');
  await execa(process.execPath, [
    ...['src/node/cli/liftside.mjs', 'render', 'take', '--content', content, '--to', out, '--also', 'hls,vp9,av1'],
  ]);
  player = await BrowserPlayer.open(out);
});
afterAll(async () => {
  await player?.close();
  await folder.remove();
});

const programme = () => join(out, 'programme.mp4');

interface Told {
  readonly codec_type: string;
  readonly codec_name: string;
  readonly width?: number;
  readonly height?: number;
}

async function streamsOf(path: string): Promise<readonly Told[]> {
  const { stdout } = await execa('ffprobe', ['-v', 'error', '-show_streams', '-of', 'json', path]);
  return JSON.parse(stdout).streams;
}

/** Frame by frame and sample by sample what the programme shows, by ffmpeg's decoding of both; never a stray frame. */
async function expectTheProgramme(path: string, listen = samples): Promise<void> {
  const [is, was] = await Promise.all([decode(path), decode(programme())]);
  expect(is.small.length).toBe(was.small.length);
  const wrong = is.small.flatMap((frame, i) => (nearestFrame(frame, was, i) === i ? [] : [i]));
  expect(wrong).toEqual([]);
  const [heard, said] = await Promise.all([listen(path), samples(programme())]);
  for (const at of [1, 5, 8.5, 12, 16].map((s) => s * 48_000))
    expect(Math.abs(lagOf(heard, at, said, at)) / 48).toBeLessThan(1);
  expect(Math.abs(heard.length - said.length) / 48_000).toBeLessThan(FRAME);
}

async function parsed(path: string) {
  const parser = new Parser();
  parser.push(await readFile(path, 'utf8'));
  parser.end();
  return parser.manifest;
}

/**
 * Players that feed segments to a browser's decoder go by the times in them and pass edit lists over: both tracks have
 * to begin at 0 without one. Source: ISO/IEC 14496-12, 8.6.6 (edit list) and 8.8.12 (track fragment decode time).
 */
async function expectStartAtZero([init = '', first = '']: readonly string[]): Promise<void> {
  const [head, body] = [await readFile(init), await readFile(first)];
  for (let at = head.indexOf('elst'); at !== -1; at = head.indexOf('elst', at + 4))
    // One entry, from media time 0 on: it changes nothing.
    expect([head.readUInt32BE(at + 8), head.readInt32BE(at + 16)]).toEqual([1, 0]);
  let tracks = 0;
  for (let at = body.indexOf('tfdt'); at !== -1 && tracks < 2; at = body.indexOf('tfdt', at + 4), tracks++)
    expect(body[at + 4] === 1 ? Number(body.readBigUInt64BE(at + 8)) : body.readUInt32BE(at + 8)).toBe(0);
  expect(tracks).toBe(2);
  const input = new Input({ source: new BufferSource(Buffer.concat([head, body])), formats: ALL_FORMATS });
  for (const track of await input.getTracks()) expect(await track.getFirstTimestamp()).toBeCloseTo(0, 6);
}

test.each([
  ['vp9', 'vp9'],
  ['av1', 'av1'],
])('the %s version is the programme, with its sound in Opus', async (version, codec) => {
  const path = join(out, `programme-${version}.webm`);
  const streams = await streamsOf(path);
  expect(streams.map(({ codec_name }) => codec_name)).toEqual([codec, 'opus']);
  expect(streams[0]).toMatchObject({ width: 640, height: 360 });
  await expectTheProgramme(path);
  expect((await stat(path)).size).toBeLessThan((await stat(programme())).size);
});

// RFC 9559 (Matroska), CodecDelay; RFC 7845, 4.2: what Opus looks ahead, 312 samples at 48 kHz, is to be dropped.
test.skipIf(!MKVINFO).each(['vp9', 'av1'])(
  'mkvinfo finds picture and sound of the %s version to begin together (skipped where it is not installed)',
  async (version) => {
    const { stdout } = await execa('mkvinfo', ['-v', '-v', join(out, `programme-${version}.webm`)]);
    const firstOf = (track: number) =>
      new RegExp(`lock: .*track number ${track}, .*timestamp 00:00:00\\.(\\d+)`).exec(stdout)?.[1];
    expect([firstOf(1), firstOf(2)]).toEqual(['000000000', '000000000']);
    expect(stdout).toContain('delay: 00:00:00.006500000');
  },
);

test('the HLS ladder is one RFC 8216 allows, and every rung is the programme', async () => {
  const master = join(out, 'hls', 'hls.m3u8');
  const { playlists } = await parsed(master);
  expect(playlists.map(({ attributes }) => attributes.RESOLUTION?.height)).toEqual([360, 270]);
  const moments: number[][] = [];
  for (const { uri, attributes } of playlists) {
    expect(attributes.CODECS).toMatch(/^avc1\.64[0-9a-f]{4},mp4a\.40\.2$/);
    const list = join(dirname(master), uri);
    const text = await readFile(list, 'utf8');
    const { targetDuration, playlistType, endList, segments, version, independentSegments } = await parsed(list);
    // 4.3.2.5 and 7: EXT-X-MAP outside of I-frame playlists wants version 6, fragmented MP4 version 7.
    expect(version).toBeGreaterThanOrEqual(7);
    expect([playlistType, endList, independentSegments]).toEqual(['VOD', true, true]);
    let [bytes, seconds, peak] = [0, 0, 0];
    for (const segment of segments) {
      // 4.3.3.1: rounded to the nearest whole second, no segment is longer than the target duration.
      expect(Math.round(segment.duration)).toBeLessThanOrEqual(targetDuration);
      expect(segment.map?.uri).toMatch(/^init_\d\.mp4$/);
      await stat(join(dirname(list), segment.map!.uri));
      const { size } = await stat(join(dirname(list), segment.uri));
      // 4.3.4.2: the variant's BANDWIDTH is its peak segment bit rate. Of segments longer than 3/4 of the target duration no two count together.
      if (segment.duration >= targetDuration / 2) peak = Math.max(peak, (size * 8) / segment.duration);
      bytes += size;
      seconds += segment.duration;
    }
    expect(Math.abs(seconds - 536 * FRAME)).toBeLessThan(0.001);
    expect(Math.abs(attributes.BANDWIDTH / peak - 1)).toBeLessThan(0.001);
    expect(Math.abs(Number(attributes['AVERAGE-BANDWIDTH']) / ((bytes * 8) / seconds) - 1)).toBeLessThan(0.001);
    expect(text.startsWith('#EXTM3U\n')).toBe(true);
    moments.push(segments.map(({ duration }) => duration));
    // ffmpeg 5.1 reads pictures with negative offsets 67 ms late: that both tracks begin at 0 is looked up in the file.
    await expectTheProgramme(list, soundAlone);
    await expectStartAtZero([segments[0]!.map!.uri, segments[0]!.uri].map((name) => join(dirname(list), name)));
  }
  // A player may change rungs at any segment: they are cut at the same moments.
  expect(moments[1]).toEqual(moments[0]);
});

test('a browser that reads HLS shows the programme, both tracks from its start', async () => {
  const was = await decode(programme());
  const frames = [3, 100, 242, 243, 400, 530];
  const moments = frames.map((frame) => (frame + 0.5) * FRAME);
  const { pictures, start, length } = await player.see('hls/hls.m3u8', moments);
  expect(pictures.map((picture, i) => nearestFrame(picture, was, frames[i]!))).toEqual(frames);
  expect(start).toBe(0);
  expect(Math.abs(length - 536 * FRAME)).toBeLessThan(FRAME);
});

test('in a browser the sound of every version comes when that of the programme does', async () => {
  const said = await samples(programme());
  const late = async (file: string) => latenessOf(await player.hear(file, 10), said);
  const wanted = await late('programme.mp4');
  for (const file of ['hls/hls.m3u8', 'programme-vp9.webm', 'programme-av1.webm'])
    expect(Math.abs((await late(file)) - wanted), file).toBeLessThan(10);
});
