import { readdirSync, readFileSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { analyseArgs, soundArgs } from '../../src/core/media/index.ts';
import { examine } from '../../src/node/media/examine.ts';
import { runFfmpeg } from '../../src/node/media/ffmpeg.ts';
import { probeFile } from '../../src/node/media/probe.ts';
import { findTools, type Tools } from '../../src/node/media/tools.ts';

let folder = '';
let tools: Tools;
let server: Server;
let port = 0;
const asked: string[] = [];

/** Files that name other files, each under the name of a camera file. */
const scripts = (): Readonly<Record<string, string>> => ({
  'playlist.mp4': '#EXTM3U\n#EXT-X-TARGETDURATION:2\n#EXTINF:2,\nsecret.ts\n#EXT-X-ENDLIST\n',
  'far-playlist.mp4': `#EXTM3U\n#EXT-X-TARGETDURATION:2\n#EXTINF:2,\nhttp://127.0.0.1:${port}/a.ts\n#EXT-X-ENDLIST\n`,
  'master.mov': `#EXTM3U\n#EXT-X-STREAM-INF:BANDWIDTH=1000\nhttp://127.0.0.1:${port}/list.m3u8\n`,
  'list.mp4': "ffconcat version 1.0\nfile 'secret.ts'\n",
  'list.avi': "ffconcat version 1.0\nfile 'secret.ts'\n",
  'session.mp4':
    'v=0\r\no=- 0 0 IN IP4 127.0.0.1\r\ns=x\r\nc=IN IP4 127.0.0.1\r\nt=0 0\r\nm=video 5004 RTP/AVP 96\r\na=rtpmap:96 H264/90000\r\n',
  'manifest.mkv': `<?xml version="1.0"?>\n<MPD xmlns="urn:mpeg:dash:schema:mpd:2011" type="static" mediaPresentationDuration="PT2S" profiles="urn:mpeg:dash:profile:full:2011"><Period><AdaptationSet><Representation id="1" bandwidth="1"><BaseURL>http://127.0.0.1:${port}/b.mp4</BaseURL><SegmentBase/></Representation></AdaptationSet></Period></MPD>\n`,
  'words.mp4': 'WEBVTT\n\n00:00.000 --> 00:01.000\nhello\n',
});

beforeAll(async () => {
  server = createServer((request, response) => {
    asked.push(request.url ?? '');
    response.writeHead(404).end();
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const address = server.address();
  port = typeof address === 'object' && address ? address.port : 0;
  folder = await mkdtemp(join(tmpdir(), 'liftside-hostile-'));
  const found = await findTools(process.env);
  if (!found.ok) throw new Error(found.problem);
  tools = found.value;
  const lavfi = ['-f', 'lavfi', '-i', 'testsrc2=s=64x64:r=25:d=2', '-f', 'lavfi', '-i', 'sine=d=2'];
  await execa(tools.ffmpeg, ['-v', 'error', ...lavfi, '-c:v', 'libx264', '-c:a', 'aac', join(folder, 'secret.ts')]);
  for (const [name, text] of Object.entries(scripts())) await writeFile(join(folder, name), text);
});
afterAll(async () => {
  await new Promise((done) => server.close(done));
  await rm(folder, { recursive: true });
});

test('asked without care, ffmpeg opens what a playlist and a list of files name: there is something to hold back', async () => {
  for (const name of ['playlist.mp4', 'list.mp4']) {
    const run = await execa(tools.ffmpeg, ['-v', 'error', '-i', join(folder, name), '-f', 'null', '-'], {
      reject: false,
    });
    expect([name, run.exitCode]).toEqual([name, 0]);
  }
});

test.each(Object.keys(scripts()))('%s is no camera file, whatever its name says, and opens no other', async (name) => {
  const path = join(folder, name);
  expect((await probeFile(path)).ok).toBe(false);
  await expect(examine(path, tools)).rejects.toThrow(/ffmpeg/);
  const look = { picture: 0, sound: null, framesPerSecond: 25, deinterlace: false };
  await expect(runFfmpeg(tools, analyseArgs(path, look), { cwd: folder })).rejects.toThrow(/ffmpeg/);
  const piece = { kind: 'sound', source: 0, from: 0, count: 48_000, fadeIn: false, fadeOut: false } as const;
  const input = { path, stream: 0, start: 0, clock: 0, drift: 0 };
  const heard = soundArgs([piece], [input], 1, { filters: [], output: ['-f', 'null', '-'] });
  await expect(runFfmpeg(tools, heard, { cwd: folder })).rejects.toThrow(/ffmpeg/);
  expect(asked).toEqual([]);
});

test('a camera file is read as ever, also under a name with a colon, a percent sign and a minus', async () => {
  const path = join(folder, '-a:b%03d|x.mp4');
  await execa(tools.ffmpeg, [
    '-v',
    'error',
    '-i',
    join(folder, 'secret.ts'),
    '-c',
    'copy',
    '-f',
    'mp4',
    `file:${path}`,
  ]);
  expect((await probeFile(path)).ok).toBe(true);
  expect((await examine(path, tools)).picture?.width).toBe(64);
});

test('inputs of ffmpeg are written in one place, and so is what is opened without it', () => {
  const files = readdirSync(resolve('src'), { recursive: true, encoding: 'utf8' }).filter((file) =>
    /\.tsx?$/.test(file),
  );
  const holding = (what: RegExp) => files.filter((file) => what.test(readFileSync(resolve('src', file), 'utf8')));
  expect(holding(/'-i'/)).toEqual(['core/media/input-args.ts']);
  expect(holding(/\b(FilePathSource|ALL_FORMATS|HLS_FORMATS|UrlSource)\b/)).toEqual(['node/media/camera-formats.ts']);
});
