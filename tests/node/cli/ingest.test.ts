import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { call } from '../../support/call.ts';

const run = promisify(execFile);
let folder = '';
let card = '';
let content = '';

async function draw(name: string, seconds: number, more: readonly string[]): Promise<void> {
  const path = join(card, name);
  await mkdir(join(path, '..'), { recursive: true });
  const sound = ['-f', 'lavfi', '-i', `sine=frequency=330:duration=${seconds}`];
  await run('ffmpeg', ['-v', 'error', ...sound, ...more, '-t', String(seconds), path]);
}
const picture = (size: string, timecode?: string) => [
  ...['-f', 'lavfi', '-i', `testsrc2=s=${size}:r=25`, '-c:v', 'libx264', '-preset', 'ultrafast', '-c:a', 'aac'],
  ...(timecode === undefined ? [] : ['-timecode', timecode]),
];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-ingest-'));
  [card, content] = [join(folder, 'card'), join(folder, 'content')];
  await mkdir(content);
  await writeFile(join(content, 'shop.yaml'), 'name: Millrace Community Garage\n');
  await draw('CLIPS/take 2.mp4', 1, picture('160x90', '10:00:02:00'));
  await draw('CLIPS/take 1.mp4', 2, picture('160x90', '10:00:00:00'));
  await draw('phone.mp4', 1, picture('90x160'));
  await draw('voice.wav', 2, []);
  await writeFile(join(card, 'CLIPS/take 1.thm'), 'a small picture');
  await mkdir(join(card, '.system'));
  await writeFile(join(card, '.system/index.mp4'), 'not ours');
  const noon = new Date('2027-01-16T12:00:00Z');
  await utimes(join(card, 'phone.mp4'), noon, noon);
});
afterAll(() => rm(folder, { recursive: true, force: true }));

test('a card is copied, each copy is read back, and the recording they make is written', async () => {
  const { code, said, out } = await call(
    ['ingest', card, '--into', 'front-brake', '--title', 'Front brake', '--json'],
    {
      content,
    },
  );
  expect(said).toMatch(/^4 files, .*: every copy was read back and its SHA-256 is that of the card$/m);
  expect(said).toContain('left on the card, no footage: CLIPS/take 1.thm');
  expect(code).toBe(0);
  expect(JSON.parse(out).files).toHaveLength(4);
  // GNU coreutils reads the sums and agrees.
  const checked = await run('sha256sum', ['--check', 'media/front-brake/sha256sums.txt'], { cwd: content });
  expect(checked.stdout.match(/: OK$/gm)).toHaveLength(4);
  expect(await readFile(join(content, 'recordings/front-brake.yaml'), 'utf8')).toBe(`title: Front brake
files:
  - {file: media/front-brake/CLIPS/take 1.mp4}
  - {file: media/front-brake/CLIPS/take 2.mp4}
rate: "25"
start: "10:00:00:00"
angles:
  - {id: camera-2, file: media/front-brake/phone.mp4}
  - {id: recorder, file: media/front-brake/voice.wav}
people:
  - {role: instructor, release: missing}   # on-file once the signed release is there
`);
});

test('run again, everything is there already, and what the recording says meanwhile stays', async () => {
  const path = join(content, 'recordings/front-brake.yaml');
  const mine = `${await readFile(path, 'utf8')}# mine\n`;
  await writeFile(path, mine);
  const { code, said } = await call(['ingest', card, '--into', 'front-brake'], { content });
  expect([code, said.includes('4 were there already')]).toEqual([0, true]);
  expect(said).toContain('recordings/front-brake.yaml is there already and stays as it is');
  expect(await readFile(path, 'utf8')).toBe(mine);
});

test('a file that was changed on the card is not written over the one that is there', async () => {
  await writeFile(join(content, 'media/front-brake/voice.wav'), 'another sound');
  const { code, said } = await call(['ingest', card, '--into', 'front-brake'], { content });
  expect(code).toBe(3);
  expect(said).toContain('voice.wav is there already, and is another file');
  expect(await readFile(join(content, 'media/front-brake/voice.wav'), 'utf8')).toBe('another sound');
});

test('a folder of the recording that is a link leading out is refused, and nothing is copied there', async () => {
  const out = join(folder, 'out');
  await mkdir(out);
  await symlink(out, join(content, 'media/linked'));
  const { code, said } = await call(['ingest', card, '--into', 'linked'], { content });
  expect(code).toBe(3);
  expect(said).toContain('goes through a link that leads out');
  expect(await readdir(out)).toEqual([]);
  await rm(join(content, 'media/linked'));
});

test.each([
  [['ingest', 'nowhere', '--into', 'x'], 2, 'there is no folder'],
  [['ingest', '.system', '--into', 'Front Brake'], 2, 'small letters'],
  [['ingest', '.'], 2, '--into takes the id'],
])('what is called wrongly copies nothing: %j', async (words, code, says) => {
  const before = await readdir(content, { recursive: true });
  const answer = await call(words, { content, cwd: card });
  expect(answer.code).toBe(code);
  expect(answer.said).toContain(says);
  expect(await readdir(content, { recursive: true })).toEqual(before);
});
