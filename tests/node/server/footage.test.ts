import { execFile } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Served, serve, TOKEN } from './support.ts';

const run = promisify(execFile);
let room: Served;
let film: Buffer;
beforeAll(async () => {
  room = await serve();
  const folder = await mkdtemp(join(tmpdir(), 'liftside-film-'));
  const path = join(folder, 'a.mp4');
  await run('ffmpeg', ['-v', 'error', '-f', 'lavfi', '-i', 'testsrc2=s=160x90:r=25:d=1', '-c:v', 'libx264', path]);
  film = await readFile(path);
  await rm(folder, { recursive: true, force: true });
});
afterAll(() => room.close());

const SHOT = Date.UTC(2027, 0, 16, 12);
const hand = (id: string, name: string, body: Buffer, headers: Record<string, string> = {}) =>
  room.ask(`/cutting-room/api/footage/file/?id=${id}&name=${encodeURIComponent(name)}&modified=${SHOT}`, {
    method: 'POST',
    body,
    headers: {
      'x-liftside-token': TOKEN,
      'sec-fetch-site': 'same-origin',
      origin: `http://127.0.0.1:${room.port}`,
      'content-type': 'application/octet-stream',
      'content-length': String(body.length),
      ...headers,
    },
  });

test('a file from the page lies in the content folder with its time of day; taken in twice it is there once', async () => {
  for (const _ of [1, 2]) {
    const answer = await hand('wheel', 'cam 1.mp4', film);
    expect([answer.status, JSON.parse(answer.text).file]).toEqual([200, 'media/wheel/cam 1.mp4']);
  }
  const path = join(room.content, 'media/wheel/cam 1.mp4');
  expect(film.equals(await readFile(path))).toBe(true);
  expect((await stat(path)).mtimeMs).toBe(SHOT);
  expect(await readdir(join(room.content, 'media/wheel'))).toEqual(['cam 1.mp4']);
});

test('files of one name off two cards both have a place', async () => {
  for (const [name, body] of [
    ['C0001.MP4', film],
    ['card-2/C0001.MP4', Buffer.from('another card')],
  ] as const) {
    const answer = await hand('twins', name, body);
    expect([answer.status, JSON.parse(answer.text).file]).toEqual([200, `media/twins/${name}`]);
    expect(body.equals(await readFile(join(room.content, 'media/twins', name)))).toBe(true);
  }
});

test('another file of that name is refused, and so is what leads elsewhere or is no footage; without the token all is', async () => {
  expect((await hand('wheel', 'cam 1.mp4', Buffer.from('other'))).status).toBe(409);
  for (const [id, name] of [
    ['wheel', '../shop.yaml'],
    ['wheel', '.hidden.mp4'],
    ['wheel', 'card-2/../../a.mp4'],
    ['wheel', '../a.mp4'],
    ['wheel', 'card-2/'],
    ['wheel', 'a/b/c.mp4'],
    ['wheel', '/a.mp4'],
    ['wheel', 'a.sh'],
    ['../x', 'a.mp4'],
    ['Wheel', 'a.mp4'],
  ] as const)
    expect((await hand(id, name, film)).status, `${id} ${name}`).toBe(403);
  expect((await hand('wheel', 'b.mp4', film, { 'x-liftside-token': 'guess' })).status).toBe(401);
  expect((await hand('wheel', 'b.mp4', film, { origin: 'http://elsewhere.example' })).status).toBe(403);
  expect(await readdir(join(room.content, 'media/wheel'))).toEqual(['cam 1.mp4']);
});

test('a link that leads out of the content folder is not written through', async () => {
  const elsewhere = join(room.content, '../elsewhere-of-footage');
  await writeFile(elsewhere, 'mine');
  try {
    await symlink(elsewhere, join(room.content, 'media/wheel/.b.mp4.part'));
    await symlink(tmpdir(), join(room.content, 'media/out'));
    expect((await hand('wheel', 'b.mp4', film)).status).toBe(200);
    expect((await hand('out', 'b.mp4', film)).status).toBe(403);
    expect(await readFile(elsewhere, 'utf8')).toBe('mine');
  } finally {
    await rm(elsewhere);
    await rm(join(room.content, 'media/wheel/b.mp4'));
  }
});

test('one look, then the recording is written; one that is there is not written over', async () => {
  const plan = JSON.parse((await room.own('/cutting-room/api/footage/plan/?file=media/wheel/cam%201.mp4')).text);
  expect(plan.plan).toMatchObject({ files: [{ file: 'media/wheel/cam 1.mp4' }], rate: '25', angles: [] });
  expect(await readdir(join(room.content, 'recordings'))).toEqual(['pads.yaml']);
  const wish = { id: 'wheel', title: 'Rear wheel', files: ['media/wheel/cam 1.mp4'] };
  const made = await room.own('/cutting-room/api/footage/', wish);
  expect(JSON.parse(made.text)).toEqual({ recording: 'wheel', angles: 0 });
  expect(await readFile(join(room.content, 'recordings/wheel.yaml'), 'utf8')).toContain('title: Rear wheel\n');
  expect((await room.own('/cutting-room/api/footage/', wish)).status).toBe(409);
  expect((await room.own('/cutting-room/api/footage/', { ...wish, id: 'x', files: ['media/gone.mp4'] })).status).toBe(
    422,
  );
  expect((await room.own('/cutting-room/api/footage/', { ...wish, title: ' ' })).status).toBe(400);
});

test('the first page lists each recording with what is kept, cued and open; a wrong address has a page', async () => {
  const page = await room.own('/cutting-room/');
  expect(page.status).toBe(200);
  // The sample keeps 290 and 1440 of 1800 s, but its camera file cannot be read here.
  expect(page.text).toMatch(
    /Brake pads, uncut[\s\S]*Length[\s\S]*not known[\s\S]*Cues set[\s\S]*4 of 8[\s\S]*Findings[\s\S]*\d+, \d+ error/,
  );
  expect(page.text).toMatch(/Rear wheel[\s\S]*0:00:01[\s\S]*100 %, 0:00:01[\s\S]*no lesson yet/);
  expect(page.text).toMatch(/Last change[\s\S]*20\d\d-\d\d-\d\d \d\d:\d\d/);
  const wrong = await room.own('/cutting-room/weel/');
  expect(wrong.status).toBe(404);
  expect(wrong.headers['content-type']).toMatch(/^text\/html/);
  expect(Buffer.from(wrong.text, 'latin1').toString()).toMatch(
    /There is no recording “weel”[\s\S]*The nearest is <a href="\/cutting-room\/wheel\/">wheel/,
  );
  expect((await room.own('/cutting-room/%3Cscript%3E/')).text).not.toContain('<script>');
});

test('cues are set in a lesson, not in its translation', async () => {
  const lesson = join(room.content, 'lessons/pads.mdx');
  await writeFile(join(room.content, 'lessons/pads.es.mdx'), await readFile(lesson, 'utf8'));
  const opened = await room.own('/cutting-room/api/open/?recording=pads');
  expect(JSON.parse(opened.text).lessonFiles).toEqual(['lessons/pads.mdx']);
  await rm(join(room.content, 'lessons/pads.es.mdx'));
});
