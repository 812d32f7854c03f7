import { readFile, stat, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { News } from '../../../src/node/server/hub.ts';
import { lanAddresses } from '../../../src/node/server/lan-addresses.ts';
import { INVITATION_MS, OPEN_MS, type PhoneDesk } from '../../../src/node/server/phone-desk.ts';
import { addTaps } from '../../../src/node/server/shoot-log-file.ts';
import { countAnswers, oddRequests, throwAll, unanswered } from '../../support/odd-requests.ts';
import { LESSON, type Served, send, serve } from './support.ts';

let room: Served;
let url: URL;
let phone = '';
beforeAll(async () => {
  room = await serve();
  await writeFile(join(room.content, 'lessons/chain.mdx'), LESSON);
});
afterAll(() => room.close());

const ask = (path: string, body?: unknown, headers: Record<string, string> = {}, by = phone) =>
  send(Number(url.port), path, {
    method: body === undefined ? 'GET' : 'POST',
    headers: {
      'x-liftside-phone': by,
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      ...headers,
    },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });

const invite = async (lesson = 'pads') => {
  const answer = await room.own('/cutting-room/api/phone/open/', { lesson });
  expect(answer.status).toBe(200);
  url = new URL(JSON.parse(answer.text).url);
  return url.hash.slice(1);
};
const pair = (token: string) => ask('/pair/', { token });
const pairedPhone = async (lesson = 'pads') => JSON.parse((await pair(await invite(lesson))).text).phone as string;
const log = async (lesson: string) =>
  JSON.parse((await room.own(`/cutting-room/api/shoot-log/?lesson=${lesson}`)).text).taps.map(
    (tap: { id: string }) => tap.id,
  );
const clap = (id: string, lesson = 'pads', at = 1000) => ({ id, lesson, at, kind: 'clap' });

test('nothing listens on the network until it is asked for, and the screen is told what does', async () => {
  const shown = async () => JSON.parse((await room.own('/cutting-room/api/phones/')).text).open;
  expect(await shown()).toBeNull();
  const token = await invite();
  expect(await shown()).toMatchObject({ hosts: [url.host], phones: 0 });
  expect(token.length).toBeGreaterThan(20);
});

test('a code lets one phone in, once', async () => {
  const token = await invite();
  expect((await ask('/list/')).status).toBe(401);
  expect((await pair('guessed')).status).toBe(401);
  expect((await pair(token.slice(0, -1))).status).toBe(401);
  const paired = await pair(token);
  expect(paired.status).toBe(200);
  expect((await pair(token)).status).toBe(401);
  phone = JSON.parse(paired.text).phone;
  const list = await ask('/list/');
  expect(JSON.parse(list.text).shots[1]).toEqual({
    id: 'put-the-bike-on-its-stand',
    kind: 'step',
    title: 'Put the bike on its stand',
  });
});

test('two phones that show the same code at once: one is let in', async () => {
  for (let i = 0; i < 20; i++) {
    const token = await invite();
    const answers = await Promise.all([pair(token), pair(token), pair(token)]);
    expect(answers.map(({ status }) => status).toSorted()).toEqual([200, 401, 401]);
  }
});

test('a code that a newer one replaced lets nobody in', async () => {
  const old = await invite();
  const next = await invite();
  expect((await pair(old)).status).toBe(401);
  expect((await pair(next)).status).toBe(200);
});

test('a code is good until its ten minutes are over, and not after', async () => {
  expect(INVITATION_MS).toBe(10 * 60_000);
  const early = await invite();
  room.clock.skip += INVITATION_MS - 5000;
  expect((await pair(early)).status).toBe(200);
  const late = await invite();
  room.clock.skip += INVITATION_MS;
  expect((await pair(late)).status).toBe(401);
});

test('a phone stays let in for a day of shooting, and not after', async () => {
  const day = await pairedPhone();
  room.clock.skip += OPEN_MS - 60_000;
  // Somebody shows another code: the opening goes on, the first phone's time does not.
  await invite();
  expect((await ask('/list/', undefined, {}, day)).status).toBe(200);
  room.clock.skip += 60_000;
  expect((await ask('/list/', undefined, {}, day)).status).toBe(401);
  phone = await pairedPhone();
});

test('the phone page carries all it needs, and lets no other script run', async () => {
  const page = await ask('/');
  expect(page.headers['content-type']).toContain('text/html');
  expect(page.text).not.toMatch(/<script[^>]*\bsrc=|<link[^>]*stylesheet/);
  expect(page.headers['content-security-policy']).toMatch(/default-src 'none'.*script-src 'sha256-[^']+' 'self';/);
  expect(page.headers['content-security-policy']).not.toContain('unsafe');
  expect((await ask('/pictures.js')).headers['content-type']).toContain('javascript');
});

test('taps are kept once, however often they are sent, and a torn line is passed over', async () => {
  const news: News[] = [];
  const end = room.hub.listen((one) => news.push(one));
  const taps = [clap('a'), { id: 'b', lesson: 'pads', at: 2000, kind: 'begin', step: 'look-at-the-pads', take: 1 }];
  expect((await ask('/taps/', { taps })).status).toBe(200);
  expect((await ask('/taps/', { taps })).status).toBe(200);
  end();
  expect(news.filter(({ kind }) => kind === 'shoot-log')).toEqual([{ kind: 'shoot-log', lesson: 'pads' }]);
  const file = join(room.content, '.liftside/shoot-log/pads.jsonl');
  await writeFile(file, `${await readFile(file, 'utf8')}{"id":"c","at":30`);
  await ask('/taps/', { taps: [{ id: 'd', lesson: 'pads', at: 4000, kind: 'rest' }] });
  expect(await log('pads')).toEqual(['a', 'b', 'd']);
});

test('400 taps posted from four sides at once, each eight times over: each is in the log once', async () => {
  const phones = [phone, await pairedPhone(), await pairedPhone(), await pairedPhone()];
  const batches = Array.from({ length: 40 }, (_, b) =>
    Array.from({ length: 10 }, (_, i) => clap(`race-${b}-${i}`, 'chain', b)),
  );
  const posts = batches.flatMap((taps) => [...phones, ...phones].map((by) => () => ask('/taps/', { taps }, {}, by)));
  const answers = await Promise.all(posts.map((post) => post()));
  expect(answers.every(({ status }) => status === 200)).toBe(true);
  const lines = (await readFile(join(room.content, '.liftside/shoot-log/chain.jsonl'), 'utf8'))
    .split('\n')
    .filter(Boolean);
  expect([posts.length, lines.length, new Set(lines).size]).toEqual([320, 400, 400]);
}, 60_000);

test('a tap goes into the log of its own lesson, whatever the cutting room shows by then', async () => {
  const early = await pairedPhone('pads');
  await invite('chain');
  await ask('/taps/', { taps: [clap('late-one', 'pads', 9000)] }, {}, early);
  expect(await log('pads')).toContain('late-one');
  expect(await log('chain')).not.toContain('late-one');
  expect(JSON.parse((await ask('/list/', undefined, {}, early)).text).lesson).toBe('pads');
});

test('logs from before taps carried a lesson are read as ever', async () => {
  await addTaps(room.content, []);
  await writeFile(join(room.content, '.liftside/shoot-log/old.jsonl'), '{"id":"x","at":1,"kind":"rest"}\n');
  expect(await log('old')).toEqual(['x']);
});

test('after a restart the port is the same and the phones are let in, the screen says so, and codes are void', async () => {
  const before = await pairedPhone();
  const token = await invite();
  await room.phone.stop();
  const next = room.desk();
  try {
    expect(await next.resume(['127.0.0.1'])).toBe(true);
    expect(next.open?.hosts).toEqual([url.host]);
    expect((await ask('/taps/', { taps: [clap('after-restart')] }, {}, before)).status).toBe(200);
    expect((await pair(token)).status).toBe(401);
  } finally {
    await next.stop();
  }
  expect(await log('pads')).toContain('after-restart');
});

test('in another network, after its day, and after it was closed, nothing is opened again', async () => {
  const opened = async (desk: PhoneDesk, addresses: readonly string[]) => {
    const open = await desk.resume(addresses);
    await desk.stop();
    return open;
  };
  expect(await opened(room.desk(), ['127.0.0.2'])).toBe(false);
  expect(await opened(room.desk(), ['127.0.0.1'])).toBe(true);
  room.clock.skip += OPEN_MS;
  expect(await opened(room.desk(), ['127.0.0.1'])).toBe(false);
  phone = await pairedPhone();
  await room.own('/cutting-room/api/phone/close/', {});
  expect(await opened(room.desk(), ['127.0.0.1'])).toBe(false);
  await expect(ask('/list/')).rejects.toThrow();
  const { port } = url;
  await invite();
  // At the same port as before: a page left there hears that it needs a new code.
  expect([url.port, (await ask('/list/')).status]).toEqual([port, 401]);
});

test('where another program took the port meanwhile, another one is used', async () => {
  const before = await pairedPhone();
  const port = url.port;
  await room.phone.stop();
  const taken = createServer();
  await new Promise<void>((done) => taken.listen(Number(port), '127.0.0.1', done));
  const next = room.desk();
  try {
    expect(await next.resume(['127.0.0.1'])).toBe(true);
    url = new URL(`http://${next.open?.hosts[0]}/`);
    expect(url.port).not.toBe(port);
    expect((await ask('/list/', undefined, {}, before)).status).toBe(200);
  } finally {
    await next.close();
    await new Promise((done) => taken.close(done));
  }
});

test('what is kept lets nobody in who reads it, and only its owner may', async () => {
  const fresh = await pairedPhone();
  const file = join(room.content, '.liftside/phones.json');
  expect(await readFile(file, 'utf8')).not.toContain(fresh);
  expect((await stat(file)).mode & 0o077).toBe(0);
  phone = fresh;
});

test('taps handed over are taken in from the page, once', async () => {
  const taps = [clap('handed', 'pads', 5000), clap('handed', 'pads', 5000)];
  for (let i = 0; i < 2; i++) expect((await room.own('/cutting-room/api/shoot-log/', { taps })).status).toBe(200);
  expect((await log('pads')).filter((id: string) => id === 'handed')).toHaveLength(1);
  expect((await room.own('/cutting-room/api/shoot-log/', { taps: [{ id: 'x' }] })).status).toBe(400);
});

test('taps that are none, too many, or from another site are refused', async () => {
  const step = { id: 'x', lesson: 'pads', at: 1, kind: 'begin', take: 1 };
  expect((await ask('/taps/', { taps: [{ ...step, step: '../x' }] })).status).toBe(400);
  expect((await ask('/taps/', { taps: [clap('x', '../pads')] })).status).toBe(400);
  expect((await ask('/taps/', { taps: [{ id: 'x', at: 1, kind: 'clap' }] })).status).toBe(400);
  expect((await ask('/taps/', { taps: [] }, { origin: 'http://evil.example' })).status).toBe(403);
  expect((await ask('/taps/', { taps: [] }, { host: 'evil.example' })).status).toBe(403);
  expect((await ask('/taps/', { text: 'x'.repeat(300_000) })).status).toBe(413);
  expect((await ask('/cutting-room/api/open/?recording=pads')).status).toBe(404);
});

test('1 000 odd requests as raw bytes do not end it', async () => {
  const port = Number(url.port);
  const answers = await throwAll(port, oddRequests(1000, port, 23));
  console.log(`shoot log: ${countAnswers(answers)}`);
  expect(unanswered(answers)).toEqual([]);
  expect((await ask('/list/')).status).toBe(200);
}, 60_000);

const entry = (address: string, family: 'IPv4' | 'IPv6' = 'IPv4', internal = false) =>
  ({ address, internal, family, netmask: '', mac: '', cidr: null, scopeid: 0 }) as never;

// RFC 1918, section 3; RFC 3927, 2.1; RFC 6598, section 7; RFC 4193, 3.1.
test.each([
  ['10.0.0.1', true],
  ['9.255.255.255', false],
  ['11.0.0.0', false],
  ['172.15.255.255', false],
  ['172.16.0.1', true],
  ['172.31.255.254', true],
  ['172.32.0.0', false],
  ['192.168.4.7', true],
  ['192.169.0.1', false],
  ['169.254.1.1', true],
  ['100.63.255.255', false],
  ['100.64.0.1', true],
  ['100.127.255.254', true],
  ['100.128.0.0', false],
  ['203.0.113.5', false],
  ['fd12:3456::1', true],
  ['fc00::1', true],
  ['fe80::1', false],
  ['2001:db8::1', false],
])('%s is an address of the shop’s own network: %s', (address, own) => {
  const found = lanAddresses({ eth0: [entry(address, address.includes(':') ? 'IPv6' : 'IPv4')] });
  expect(found).toEqual(own ? [address] : []);
});

test('every such address is offered, IPv4 first; the machine’s own loopback is not', () => {
  const all = {
    lo: [entry('127.0.0.1', 'IPv4', true), entry('10.9.9.9', 'IPv4', true)],
    wlan0: [entry('fd00::7', 'IPv6'), entry('192.168.4.7')],
    eth0: [entry('10.1.1.2'), entry('203.0.113.5')],
  };
  expect(lanAddresses(all)).toEqual(['192.168.4.7', '10.1.1.2', 'fd00::7']);
});
