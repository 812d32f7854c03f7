import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { News } from '../../../src/node/server/hub.ts';
import { lanAddress } from '../../../src/node/server/lan-address.ts';
import { type Served, send, serve } from './support.ts';

let room: Served;
let url: URL;
let phone = '';
beforeAll(async () => {
  room = await serve();
});
afterAll(() => room.close());

const ask = (path: string, body?: unknown, headers: Record<string, string> = {}) =>
  send(Number(url.port), path, {
    method: body === undefined ? 'GET' : 'POST',
    headers: {
      'x-liftside-phone': phone,
      ...(body === undefined ? {} : { 'content-type': 'application/json' }),
      ...headers,
    },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });

test('nothing listens on the network until it is asked for', async () => {
  expect(room.phone.isOpen).toBe(false);
  const answer = await room.own('/cutting-room/api/phone/open/', { lesson: 'pads' });
  expect(answer.status).toBe(200);
  url = new URL(JSON.parse(answer.text).url);
  expect(room.phone.isOpen).toBe(true);
  expect(url.hash.length).toBeGreaterThan(20);
});

test('a code lets one phone in, once', async () => {
  expect((await ask('/list/')).status).toBe(401);
  expect((await ask('/pair/', { token: 'guessed' })).status).toBe(401);
  const paired = await ask('/pair/', { token: url.hash.slice(1) });
  expect(paired.status).toBe(200);
  expect((await ask('/pair/', { token: url.hash.slice(1) })).status).toBe(401);
  phone = JSON.parse(paired.text).phone;
  const list = await ask('/list/');
  expect(JSON.parse(list.text).shots[1]).toEqual({
    id: 'put-the-bike-on-its-stand',
    kind: 'step',
    title: 'Put the bike on its stand',
  });
});

test('the phone page carries all it needs, and lets no other script run', async () => {
  const page = await ask('/');
  expect(page.headers['content-type']).toContain('text/html');
  expect(page.text).not.toMatch(/src=|href=/);
  expect(page.headers['content-security-policy']).toMatch(/default-src 'none'.*script-src 'sha256-/);
});

test('taps are kept once, however often they are sent, and a torn line is passed over', async () => {
  const news: News[] = [];
  const end = room.hub.listen((one) => news.push(one));
  const taps = [
    { id: 'a', at: 1000, kind: 'clap' },
    { id: 'b', at: 2000, kind: 'begin', step: 'look-at-the-pads', take: 1 },
  ];
  expect((await ask('/taps/', { taps })).status).toBe(200);
  expect((await ask('/taps/', { taps })).status).toBe(200);
  end();
  expect(news).toContainEqual({ kind: 'shoot-log', lesson: 'pads' });
  const file = join(room.content, '.liftside/shoot-log/pads.jsonl');
  await writeFile(file, `${await readFile(file, 'utf8')}{"id":"c","at":30`);
  await ask('/taps/', { taps: [{ id: 'd', at: 4000, kind: 'rest' }] });
  const log = JSON.parse((await room.own('/cutting-room/api/shoot-log/?lesson=pads')).text);
  expect(log.taps.map(({ id }: { id: string }) => id)).toEqual(['a', 'b', 'd']);
});

test('taps that are none, too many, or from another site are refused', async () => {
  expect((await ask('/taps/', { taps: [{ id: 'x', at: 1, kind: 'begin', step: '../x', take: 1 }] })).status).toBe(400);
  expect((await ask('/taps/', { taps: [] }, { origin: 'http://evil.example' })).status).toBe(403);
  expect((await ask('/taps/', { taps: [] }, { host: 'evil.example' })).status).toBe(403);
  expect((await ask('/taps/', { text: 'x'.repeat(300_000) })).status).toBe(413);
  expect((await ask('/cutting-room/api/open/?recording=pads')).status).toBe(404);
});

test('closed, nobody gets in any more', async () => {
  await room.own('/cutting-room/api/phone/close/', {});
  await expect(ask('/list/')).rejects.toThrow();
});

test('the address is one of the shop’s own network', () => {
  const entry = (address: string, internal = false) => ({
    address,
    internal,
    family: 'IPv4' as const,
    netmask: '',
    mac: '',
    cidr: null,
  });
  expect(lanAddress({ lo: [entry('127.0.0.1', true)], eth0: [entry('203.0.113.5'), entry('192.168.4.7')] })).toBe(
    '192.168.4.7',
  );
  expect(lanAddress({ lo: [entry('127.0.0.1', true)] })).toBeUndefined();
});
