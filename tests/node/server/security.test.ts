import { mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { LESSON, type Served, serve, TOKEN } from './support.ts';

let room: Served;
beforeAll(async () => {
  room = await serve();
});
afterAll(() => room.close());

const SAVE = '/cutting-room/api/save/';
const change = (file: string, was: string | null = null, text = 'x') => ({ changes: [{ file, was, text }] });
const good = () => ({
  'x-liftside-token': TOKEN,
  origin: `http://127.0.0.1:${room.port}`,
  'content-type': 'application/json',
});
const post = (headers: Record<string, string>, body: string) => room.ask(SAVE, { method: 'POST', headers, body });
const harmless = () => JSON.stringify(change('lessons/pads.mdx', LESSON, `${LESSON}\nmore\n`));

const unchanged = async () => expect(await readFile(join(room.content, 'lessons/pads.mdx'), 'utf8')).toBe(LESSON);

// A page elsewhere whose name was pointed at this machine sends its own name in Host (DNS rebinding; W3C/OWASP).
test.each(['evil.example', 'evil.example:80', '127.0.0.1', '127.0.0.1:1', 'localhost.evil.example:4321'])(
  'a Host of "%s" is turned away',
  async (host) => {
    const answer = await post({ ...good(), host }, harmless());
    expect(answer.status).toBe(403);
    await unchanged();
  },
);

test.each(['http://evil.example', 'null', 'http://127.0.0.1:1', 'https://127.0.0.1'])(
  'an Origin of %s is turned away',
  async (origin) => {
    expect((await post({ ...good(), origin }, harmless())).status).toBe(403);
    await unchanged();
  },
);

test('a write that hides where it comes from is turned away', async () => {
  const { origin: _, ...headers } = good();
  expect((await post(headers, harmless())).status).toBe(403);
  await unchanged();
});

test.each(['cross-site', 'same-site'])('the browser says %s: turned away, reading too', async (site) => {
  expect((await post({ ...good(), 'sec-fetch-site': site }, harmless())).status).toBe(403);
  const read = await room.ask(`/cutting-room/api/media/media/pads.mp4?token=${TOKEN}`, {
    headers: { 'sec-fetch-site': site },
  });
  expect(read.status).toBe(403);
  await unchanged();
});

test.each([
  ['none', {}],
  ['a wrong one', { 'x-liftside-token': 'the-token-of-last-start' }],
  ['one of the same length', { 'x-liftside-token': TOKEN.replaceAll('t', 'u') }],
])('token: %s is turned away', async (_name, token) => {
  const { 'x-liftside-token': _token, ...headers } = good();
  expect((await post({ ...headers, ...token }, harmless())).status).toBe(401);
  expect((await room.ask('/cutting-room/api/open/?recording=pads', { headers: token })).status).toBe(401);
  await unchanged();
});

test('the page can be opened by its address from anywhere, but not read, framed or scripted by another site', async () => {
  const path = '/cutting-room/pads/';
  const link = { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate', 'sec-fetch-dest': 'document' };
  const opened = await room.ask(path, { headers: link });
  expect(opened.status).toBe(200);
  expect(opened.headers['x-frame-options']).toBe('DENY');
  expect(opened.headers['content-security-policy']).toContain("frame-ancestors 'none'");
  expect(opened.headers['access-control-allow-origin']).toBeUndefined();
  expect((await room.ask(path, { headers: { ...link, 'sec-fetch-dest': 'iframe' } })).status).toBe(403);
  expect(
    (await room.ask(path, { headers: { origin: 'http://localhost:3000', 'sec-fetch-site': 'same-site' } })).status,
  ).toBe(403);
});

test.each([
  '../outside.mdx',
  'lessons/../../outside.mdx',
  'lessons/..%2f..%2foutside.mdx',
  '/etc/passwd',
  'lessons/.hidden.mdx',
  'lessons\\pads.mdx',
  'lessons/pads.mdx\0.yaml',
  'shop.yaml',
  'media/pads.mp4',
  'lessons/pads.js',
  'recordings/.git/config.yaml',
  'lessons/sub/pads.mdx',
  'C:/x.mdx',
])('writing %j is refused', async (file) => {
  expect((await room.own(SAVE, change(file))).status).toBe(403);
});

test.each([
  '/cutting-room/api/media/../../../../etc/passwd',
  '/cutting-room/api/media/..%2f..%2f..%2fetc%2fpasswd',
  '/cutting-room/api/media/%2e%2e/shop.yaml',
  '/cutting-room/api/media/media/..%5c..%5cshop.yaml',
  '/cutting-room/api/media/shop.yaml',
  '/cutting-room/api/media/.liftside/probe.json',
  '/cutting-room/api/media//etc/passwd',
  '/cutting-room/api/media/media/pads.mp4%00.yaml',
  '/cutting-room/api/media/%',
])('reading %s gives nothing', async (path) => {
  const answer = await room.own(path);
  expect([400, 403, 404]).toContain(answer.status);
  expect(answer.text).not.toMatch(/root:|name: Millrace/);
});

test('symbolic links are neither followed for reading nor for writing', async () => {
  const elsewhere = await mkdtemp(join(tmpdir(), 'liftside-elsewhere-'));
  await writeFile(join(elsewhere, 'secret.mdx'), 'secret');
  await writeFile(join(elsewhere, 'other.mp4'), 'secret');
  await symlink(join(elsewhere, 'secret.mdx'), join(room.content, 'lessons/linked.mdx'));
  await symlink(join(elsewhere, 'other.mp4'), join(room.content, 'media/linked.mp4'));
  await symlink(elsewhere, join(room.content, 'media/folder'));
  expect((await room.own(SAVE, change('lessons/linked.mdx', 'secret'))).status).toBe(403);
  for (const path of ['media/linked.mp4', 'media/folder/other.mp4']) {
    const answer = await room.own(`/cutting-room/api/media/${path}`);
    expect([answer.status, answer.text.includes('secret')]).toEqual([403, false]);
  }
  const opened = await room.own('/cutting-room/api/open/?recording=pads');
  expect([opened.status, opened.text.includes('lessons/pads.mdx'), opened.text.includes('"secret')]).toEqual([
    200,
    true,
    false,
  ]);
  expect(Object.keys(JSON.parse(opened.text).texts)).not.toContain('lessons/linked.mdx');
  expect(await readFile(join(elsewhere, 'secret.mdx'), 'utf8')).toBe('secret');
  await rm(join(room.content, 'lessons/linked.mdx'));
  await rm(elsewhere, { recursive: true });
});

test('a body that is too long is turned away, told or not, and so is what is no JSON', async () => {
  const long = Buffer.alloc(5 * 1024 * 1024, ' ');
  expect(
    (
      await room.ask(SAVE, {
        method: 'POST',
        headers: { ...good(), 'content-length': String(long.length) },
        body: long,
      })
    ).status,
  ).toBe(413);
  const chunked = await room.ask(SAVE, {
    method: 'POST',
    headers: { ...good(), 'transfer-encoding': 'chunked' },
    body: long,
  });
  expect(chunked.status).toBe(413);
  expect((await post({ ...good(), 'content-type': 'text/plain' }, harmless())).status).toBe(415);
  expect((await post(good(), '{')).status).toBe(415);
  expect((await post(good(), '{"changes":[]}')).status).toBe(400);
});

test('another method and another address are told, and what is not ours goes on', async () => {
  expect((await room.ask(SAVE, { headers: { 'x-liftside-token': TOKEN } })).status).toBe(405);
  expect((await room.ask('/lessons/pads/')).text).toBe('not ours');
});

// RFC 9110, section 14: 206 with Content-Range; 416 where nothing is left.
test('camera files come by range', async () => {
  const path = `/cutting-room/api/media/media/pads.mp4?token=${TOKEN}`;
  const part = await room.ask(path, { headers: { range: 'bytes=10-19' } });
  expect([part.status, part.headers['content-range'], Buffer.from(part.text, 'latin1')]).toEqual([
    206,
    'bytes 10-19/1000',
    Buffer.from([10, 11, 12, 13, 14, 15, 16, 17, 18, 19]),
  ]);
  const tail = await room.ask(path, { headers: { range: 'bytes=-5' } });
  expect([tail.status, tail.text.length]).toEqual([206, 5]);
  expect((await room.ask(path, { headers: { range: 'bytes=5000-' } })).status).toBe(416);
  expect((await room.ask(path)).headers['accept-ranges']).toBe('bytes');
});

test('the server of the page can be reached from this machine only', async () => {
  const { ownHosts } = await import('../../../src/node/server/guard.ts');
  expect(ownHosts(4321)).toEqual(['127.0.0.1:4321', 'localhost:4321', '[::1]:4321']);
});
