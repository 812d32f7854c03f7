import { execFileSync } from 'node:child_process';
import { symlink, writeFile } from 'node:fs/promises';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { countAnswers, oddRequests, throwAll, unanswered } from '../../support/odd-requests.ts';
import { discard, roomContent, type Started, startRoom } from '../../support/start-room.ts';
import { send } from './support.ts';

const HOME = resolve(import.meta.dirname, '../../..');
const SECRET = 'not-for-anybody-else';
let content = '';
let elsewhere = '';
let room: Started;
let port = 0;
beforeAll(async () => {
  content = await roomContent({
    'recordings/pads.yaml': 'title: Pads\nfiles: [{file: media/pads.mp4}]\nrate: "25"\n',
    'lessons/pads.mdx':
      '---\ntitle: Pads\nrecording: pads\nmachine: tarn-420\n---\n## Look\n\n### Look in\nFrom below.\n',
  });
  elsewhere = await roomContent({});
  for (const name of ['secret.json', 'secret.ts', 'secret.mp4', 'secret.css'])
    await writeFile(join(elsewhere, name), `"${SECRET}"`);
  for (const name of ['secret.json', 'secret.ts', 'secret.mp4', 'secret.css'])
    await symlink(join(elsewhere, name), join(content, 'media', name));
  await symlink(elsewhere, join(content, 'media/folder'));
  room = await startRoom(content);
  port = Number(new URL(room.address).port);
}, 120_000);
afterAll(async () => {
  await room.stop();
  await discard(content);
  await discard(elsewhere);
});

const host = () => ({ host: `127.0.0.1:${port}` });
const get = (path: string, headers: Record<string, string> = {}) =>
  send(port, path, { headers: { ...host(), ...headers } });

test('the pages and what they are made of are served', async () => {
  const front = await get('/');
  expect(front.status).toBe(200);
  expect(front.headers['content-security-policy']).toMatch(
    /^default-src 'none'; .*script-src 'self' 'sha256-[^']+' 'wasm-unsafe-eval';/,
  );
  // In its header, and only there: the builder's style sheets stand in the page.
  expect(front.text).not.toContain('http-equiv="content-security-policy"');
  expect((await get('/lessons/pads/')).text).toContain('Look in');
  const page = await get('/cutting-room/pads/');
  const script = /src="([^"]*main\.tsx)"/.exec(page.text)?.[1] ?? '';
  expect((await get(script)).status).toBe(200);
  expect((await get('/@vite/client')).status).toBe(200);
}, 60_000);

test.each([
  '/@fs{content}/media/secret.json',
  '/@fs{content}/media/secret.ts',
  '/@fs{content}/media/secret.mp4',
  '/@fs{content}/media/secret.css?inline',
  '/@fs{content}/media/secret.json?import&raw',
  '/@fs{content}/media/secret.json?url',
  '/@fs{content}/media/folder/secret.json',
  '/@fs{elsewhere}/secret.json?raw',
  '/@id/{content}/media/secret.ts',
  '/@fs{content}/shop.yaml',
  '/@fs{content}/lessons/pads.mdx?raw',
  '/package.json',
  '/package.json?raw',
  '/package.json/?import&raw',
  '/content/shop.yaml',
  '/content/shop.yaml?raw',
  '/%2563ontent/shop.yaml',
  '/tests/support/start-room.ts',
  '/.git/HEAD',
  '/.gitignore',
])('the builder gives out no file but the pages’ own code: %s', async (written) => {
  const answer = await get(written.replace('{content}', content).replace('{elsewhere}', elsewhere));
  expect([answer.status, answer.text.includes(SECRET)]).toEqual([404, false]);
});

test('a link among the sources leads nowhere either', async () => {
  const link = join(HOME, 'src', `linked-${process.pid}.json`);
  execFileSync('ln', ['-s', join(elsewhere, 'secret.json'), link]);
  try {
    for (const path of [`/src/linked-${process.pid}.json`, `/@fs${link}?raw`])
      expect([path, (await get(path)).status]).toEqual([path, 404]);
  } finally {
    execFileSync('rm', [link]);
  }
});

test('nobody starts an editor here, from this page or another', async () => {
  for (const path of ['/__open-in-editor?file=package.json', '/__open-in-editor/?file=/etc/passwd', '/__anything'])
    for (const headers of [
      {},
      { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate', 'sec-fetch-dest': 'document' },
    ])
      expect([path, (await get(path, headers)).status]).toEqual([path, 'sec-fetch-site' in headers ? 403 : 404]);
});

test('another site may have a page opened, and nothing else', async () => {
  const shown = { 'sec-fetch-mode': 'navigate', 'sec-fetch-dest': 'document' };
  const included = { 'sec-fetch-mode': 'no-cors', 'sec-fetch-dest': 'script' };
  for (const site of ['cross-site', 'same-site']) {
    expect((await get('/lessons/pads/', { 'sec-fetch-site': site, ...shown })).status).toBe(200);
    expect((await get('/lessons/pads/', { 'sec-fetch-site': site, ...included })).status).toBe(403);
    expect((await get('/src/browser/cutting-room/main.tsx', { 'sec-fetch-site': site, ...included })).status).toBe(403);
    expect((await get('/@vite/client', { 'sec-fetch-site': site, ...shown })).status).toBe(403);
  }
  expect((await send(port, '/lessons/pads/', { headers: { host: 'evil.example' } })).status).toBe(403);
});

test('it listens on 127.0.0.1 and on no other address of this machine', async () => {
  const others = Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .map(({ address }) => address)
    .filter((address) => address !== '127.0.0.1' && !address.startsWith('fe80'));
  const open = await Promise.all(
    others.map(
      (address) =>
        new Promise<string | undefined>((done) => {
          const socket = connect({ host: address, port, timeout: 2000 });
          const end = (found?: string) => {
            socket.destroy();
            done(found);
          };
          socket
            .on('connect', () => end(address))
            .on('error', () => end())
            .on('timeout', () => end());
        }),
    ),
  );
  expect(open.filter((address) => address !== undefined)).toEqual([]);
});

test('1 000 odd requests as raw bytes: each is answered or its connection closed, none with 5xx, none ends start', async () => {
  const answers = await throwAll(port, oddRequests(1000, port, 11));
  console.log(`start: ${countAnswers(answers)}`);
  expect(unanswered(answers)).toEqual([]);
  expect([...answers.values()].flat()).toHaveLength(1000);
  expect(room.process.exitCode).toBeNull();
  expect((await get('/')).status).toBe(200);
}, 120_000);
