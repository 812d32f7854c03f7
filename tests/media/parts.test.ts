import { copyFile, mkdir, open, readFile, stat, writeFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FilmIndex, PictureJob } from '../../src/core/media/index.ts';
import { readFilmIndex } from '../../src/core/media/index.ts';
import { examine } from '../../src/node/media/examine.ts';
import { Store } from '../../src/node/media/store.ts';
import { Inputs } from '../../src/node/queue/inputs.ts';
import { MEDIA_KINDS } from '../../src/node/queue/job-kinds.ts';
import type { MediaStore } from '../../src/node/queue/media-store.ts';
import { ffmpeg, workspace } from './make.ts';
import { tools } from './shop.ts';

// Jobs over files of which only a part is here. Reference: the same job over the whole file; and ffprobe's list of packets.

const SECONDS = 60;
const BLOCK = 64 << 10;

/** Films of several kinds, each with noise in its picture so that it is large. */
const FILMS: Readonly<Record<string, readonly string[]>> = {
  'index-behind.mp4': ['-c:v', 'libx264', '-bf', '2', '-g', '50', '-c:a', 'aac'],
  'index-before.mp4': ['-c:v', 'libx264', '-bf', '3', '-g', '250', '-c:a', 'aac', '-movflags', '+faststart'],
  'timecode.mov': ['-c:v', 'libx264', '-bf', '0', '-g', '12', '-c:a', 'pcm_s16le', '-timecode', '10:00:00:00'],
  'seconds.mp4': [
    '-c:v',
    'libx264',
    '-bf',
    '2',
    '-g',
    '100',
    '-c:a',
    'aac',
    '-af',
    'adelay=300:all=1',
    '-chunk_duration',
    '1000000',
  ],
};
/** Read as a whole: in fragments, or in another container. */
const WHOLE: Readonly<Record<string, readonly string[]>> = {
  'fragments.mp4': ['-c:v', 'libx264', '-g', '50', '-c:a', 'aac', '-movflags', '+frag_keyframe+empty_moov'],
  'other.mkv': ['-c:v', 'libx264', '-g', '50', '-c:a', 'aac'],
};

let folder: Awaited<ReturnType<typeof workspace>>;
beforeAll(async () => {
  folder = await workspace();
  await mkdir(folder.path('bench'));
  const picture = ['-f', 'lavfi', '-i', `testsrc2=s=320x180:r=25:d=${SECONDS},noise=alls=60:allf=t:all_seed=7`];
  const sound = ['-f', 'lavfi', '-i', `anoisesrc=c=pink:r=48000:a=0.3:d=${SECONDS}:seed=4`];
  for (const [name, coding] of Object.entries({ ...FILMS, ...WHOLE }))
    await ffmpeg(
      ...picture,
      ...sound,
      '-preset',
      'ultrafast',
      '-crf',
      '16',
      '-pix_fmt',
      'yuv420p',
      ...coding,
      folder.path(name),
    );
});
afterAll(() => folder.remove());

interface Packet {
  readonly stream_index: number;
  readonly pos: string;
  readonly size: string;
  readonly dts_time: string;
  readonly flags: string;
}

async function indexOf(path: string): Promise<FilmIndex | undefined> {
  const bytes = await readFile(path);
  for (let at = 0; at < bytes.length; at += bytes.readUInt32BE(at))
    if (bytes.toString('latin1', at + 4, at + 8) === 'moov')
      return readFilmIndex(bytes.subarray(at + 8, at + bytes.readUInt32BE(at)), bytes.length);
  return undefined;
}

test.each(Object.keys(FILMS))(
  '%s: every packet that ffprobe lists lies in a chunk of its track, at its time',
  async (name) => {
    const path = folder.path(name);
    const index = await indexOf(path);
    const asked = ['-v', 'error', '-of', 'json', '-show_entries', 'packet=stream_index,pos,size,dts_time,flags'];
    const { packets } = JSON.parse((await execa('ffprobe', [...asked, path], { maxBuffer: 1 << 28 })).stdout) as {
      packets: readonly Packet[];
    };
    expect(packets.length).toBeGreaterThan(25 * SECONDS);
    for (const { stream_index: stream, pos, size, dts_time: dts, flags } of packets) {
      const track = index?.tracks[stream];
      const chunk = track?.chunks.find(({ offset, end }) => offset <= Number(pos) && Number(pos) + Number(size) <= end);
      if (!track || !chunk) throw new Error(`no chunk holds ${pos} of stream ${stream}`);
      // ffprobe lets decoding begin early enough for pictures that are shown before they are decoded.
      const late = Number(dts) - track.shift;
      expect(late).toBeGreaterThanOrEqual(chunk.time[0] - 0.2);
      expect(late).toBeLessThanOrEqual(chunk.time[1] + 0.2);
      if (flags.startsWith('K') && track.keys) expect(track.keys.some((key) => Math.abs(key - late) < 0.2)).toBe(true);
    }
  },
);

/** A store elsewhere that holds one file, and what was read of it. */
function elsewhere(path: string, bytes: number) {
  const read = new Set<number>();
  const store: MediaStore = {
    shown: 'elsewhere',
    has: async () => true,
    put: async () => {},
    get: async () => {
      throw new Error('it lies elsewhere');
    },
    remote: async () => ({
      ...{ bytes, block: BLOCK },
      async read(start, end) {
        for (let at = start; at < end; at += BLOCK) read.add(at);
        const file = await open(path, 'r');
        const part = new Uint8Array(end - start);
        await file.read(part, 0, part.length, start);
        await file.close();
        return part;
      },
    }),
  };
  return { store, read };
}

/** What a job makes of a file, and of one of which the rest of what it asked for is rubbish. */
async function bothWays(name: string, task: string, params: unknown) {
  const path = folder.path(name);
  const { size } = await stat(path);
  const { content } = await examine(path, await tools());
  const kind = MEDIA_KINDS.get(task);
  if (!kind) throw new Error(task);
  const asked = kind.read(params);
  const own = await Store.open(folder.path('bench'));
  const { signal } = new AbortController();
  const run = async (from: string) => {
    const output = own.temporary(kind.extension);
    await asked.run([from], output, { tools: await tools(), store: own, signal, onSeconds: () => {} });
    return readFile(output);
  };
  const { store, read } = elsewhere(path, size);
  const inputs = new Inputs(folder.path(`scratch-${basename(name)}-${task}`));
  const parted = await inputs.during([content], asked.parts, { store, signal }, async ([here = '']) => {
    expect((await stat(here)).size).toBe(size);
    await spoil(here, size, read);
    return run(here);
  });
  const whole = await run(path);
  await own.close();
  return { same: parted.equals(whole), bytes: whole.length, share: (read.size * BLOCK) / size };
}

async function spoil(path: string, size: number, read: ReadonlySet<number>): Promise<void> {
  const file = await open(path, 'r+');
  for (let at = 0; at < size; at += BLOCK)
    if (!read.has(at))
      await file.write(Buffer.alloc(Math.min(BLOCK, size - at), 'rubbish'), 0, Math.min(BLOCK, size - at), at);
  await file.close();
}

async function pictureOf(name: string, first: number, count: number): Promise<{ picture: PictureJob }> {
  const { picture, clock } = await examine(folder.path(name), await tools());
  return {
    picture: {
      ...{
        first,
        count,
        rate: '25/1',
        stream: picture?.stream ?? 0,
        start: picture?.start ?? 0,
        clock,
        lead: 0,
        drift: 0,
      },
      ...{ fit: null, turn: false, deinterlace: false, even: first % 2 === 0, burnt: null },
      coding: {
        codec: 'h264',
        profile: null,
        level: null,
        parameterSet: 0,
        bFrames: 0,
        crf: 30,
        preset: 'ultrafast',
        group: 50,
      },
    },
  };
}

async function soundOf(name: string, stretches: readonly (readonly [from: number, seconds: number])[]) {
  const { sounds, clock } = await examine(folder.path(name), await tools());
  const [sound] = sounds;
  return {
    pieces: stretches.map(([from, seconds]) => ({
      ...{ kind: 'sound', source: 0, from: from * 48_000, count: seconds * 48_000, fadeIn: false, fadeOut: true },
    })),
    inputs: [{ stream: sound?.stream ?? 1, start: sound?.start ?? 0, clock, drift: 0 }],
    channels: 1,
  };
}

const JOBS: Readonly<Record<string, (name: string) => Promise<readonly [task: string, params: unknown]>>> = {
  'ten seconds of its middle': async (name) => ['encode-picture', await pictureOf(name, 30 * 25, 250)],
  'a second near its end': async (name) => ['encode-picture', await pictureOf(name, 57 * 25 + 1, 25)],
  'its first two seconds': async (name) => ['look-at-corners', await pictureOf(name, 1, 50)],
  'sound of two places': async (name) => [
    'measure-sound',
    await soundOf(name, [
      [18, 3],
      [52, 4],
    ]),
  ],
  'how all of its speech sounds': async (name) => {
    const { sounds } = await examine(folder.path(name), await tools());
    return [
      'hear-looks',
      {
        sound: sounds[0]?.stream ?? 1,
        talk: [
          [2, 9],
          [40, 59],
        ],
      },
    ];
  },
};

describe.each(Object.keys(FILMS))('%s', (name) => {
  test.each(Object.keys(JOBS))('%s come out the same, whatever lies in the rest of the file', async (what) => {
    const [task, params] = (await JOBS[what]?.(name)) ?? ['', {}];
    const { same, bytes, share } = await bothWays(name, task, params);
    console.log(
      `${name}, ${what}: ${(share * 100).toFixed(0)} % of ${((await stat(folder.path(name))).size / 1e6).toFixed(0)} MB fetched`,
    );
    expect(same).toBe(true);
    expect(bytes).toBeGreaterThan(0);
    // Where sound lies in small pieces between the pictures, all of the file is fetched for it.
    if (what === 'ten seconds of its middle') expect(share).toBeLessThan(0.75);
    if (what === 'how all of its speech sounds' && name === 'seconds.mp4') expect(share).toBeLessThan(0.5);
  });
});

test.each(Object.keys(WHOLE))('%s is fetched whole', async (name) => {
  const { same, share } = await bothWays(name, 'encode-picture', await pictureOf(name, 30 * 25, 50));
  expect(same).toBe(true);
  expect(share).toBeGreaterThanOrEqual(1);
});

test('an index that says what cannot be is not gone by', async () => {
  const bytes = await readFile(folder.path('index-before.mp4'));
  const start = bytes.indexOf('moov', 0, 'latin1') + 4;
  const moov = bytes.subarray(start, start - 8 + bytes.readUInt32BE(start - 8));
  expect(readFilmIndex(moov, bytes.length)?.tracks).toHaveLength(2);
  expect(readFilmIndex(moov, 1_000_000)).toBeUndefined();
  expect(readFilmIndex(moov.subarray(0, moov.length - 100), bytes.length)).toBeUndefined();
  for (const type of ['stsz', 'stco', 'stsc', 'stts', 'elst']) {
    const changed = Buffer.from(moov);
    // As many rows as no file holds.
    changed.writeUInt32BE(0xffffffff, changed.indexOf(type, 0, 'latin1') + (type === 'stsz' ? 12 : 8));
    expect([type, readFilmIndex(changed, bytes.length)]).toEqual([type, undefined]);
  }
});

test('what is not the file it should be is told, and not worked on', async () => {
  const path = folder.path('changed.mkv');
  await copyFile(folder.path('other.mkv'), path);
  const { content } = await examine(path, await tools());
  await writeFile(path, Buffer.alloc((await stat(path)).size, 'other'));
  const { store } = elsewhere(path, (await stat(path)).size);
  const { signal } = new AbortController();
  const lent = new Inputs(folder.path('scratch-changed')).during(
    [content],
    undefined,
    { store, signal },
    async () => {},
  );
  await expect(lent).rejects.toThrow('is not the one it was');
});
