import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import type { News } from '../../../src/node/server/hub.ts';
import { type Served, send, serve } from './support.ts';

let room: Served;
let port = 0;
const news: News[] = [];
beforeAll(async () => {
  room = await serve();
  await mkdir(join(room.content, 'classes'), { recursive: true });
  await writeFile(
    join(room.content, 'classes/saturday.yaml'),
    `title: Saturday
date: 2027-03-06
starts: "10:00"
slot: "1:00"
blocks:
  - {id: talk, title: Talk, kind: talk, treatments: [{id: a, worth: 5, minutes: 5}]}
`,
  );
  room.hub.listen((each) => news.push(each));
});
beforeEach(() => {
  news.length = 0;
});
afterAll(() => room.close());

const invite = async (as: 'lead' | 'room') => {
  const answer = await room.own('/cutting-room/api/phone/open/', { class: 'saturday', as });
  expect(answer.status).toBe(200);
  const url = new URL(JSON.parse(answer.text).url);
  port = Number(url.port);
  return url;
};
const ask = (path: string, body?: unknown, headers: Record<string, string> = {}) =>
  send(port, path, {
    method: body === undefined ? 'GET' : 'POST',
    headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
const letIn = async (as: 'lead' | 'room') => {
  const url = await invite(as);
  const answer = await ask('/pair/', { token: url.hash.slice(1) });
  const { phone } = JSON.parse(answer.text) as { phone: string };
  return { by: { 'x-liftside-phone': phone }, cookie: String(answer.headers['set-cookie'] ?? '').split(';')[0] ?? '' };
};
const press = (does: string) => ({ id: 'press-0001', does });
const told = () => news.filter(({ kind }) => kind === 'press' || kind === 'room-word');

test('the code leads to a page of its own for a phone and for a screen, over plain HTTP, with nothing from elsewhere', async () => {
  expect((await invite('lead')).pathname).toBe('/lead/');
  const page = await ask('/lead/');
  expect(page.status).toBe(200);
  expect(page.text).toContain('Waiting for the class');
  expect(page.headers['content-security-policy']).toContain("default-src 'none'");
  expect((await invite('room')).pathname).toBe('/room/');
  expect((await ask('/room/')).text).not.toMatch(/@import|https?:\/\/(?!www\.w3\.org)/);
});

test('a phone that was let in is shown the class in words, and its presses reach the one who leads', async () => {
  const { by } = await letIn('lead');
  await room.own('/cutting-room/api/day/show/', {
    class: 'saturday',
    lead: { title: 'Talk' },
    room: { x: 1 },
    films: {},
  });
  // Films are long and stay the same: from then on they are left out.
  const again = { class: 'saturday', lead: { title: 'Look' }, room: { x: 2 } };
  expect((await room.own('/cutting-room/api/day/show/', again)).status).toBe(200);
  const shown = new Promise<string>((done) => {
    void import('node:http').then(({ get }) => {
      const request = get({ host: '127.0.0.1', port, path: '/now/', headers: by }, (response) => {
        response.once('data', (chunk: Buffer) => {
          done(chunk.toString());
          request.destroy();
        });
      });
      request.on('error', () => undefined);
    });
  });
  // Words only: neither what the room sees nor films.
  expect(JSON.parse(await shown)).toEqual({ lead: { title: 'Look' } });
  expect((await ask('/press/', press('next'), by)).status).toBe(200);
  expect(told()).toEqual([{ kind: 'press', class: 'saturday', press: press('next') }]);
});

test('what is no press of a clicker is refused', async () => {
  const { by } = await letIn('lead');
  for (const body of [press('afresh'), press('over'), { does: 'next' }, { ...press('next'), more: 1 }, []])
    expect((await ask('/press/', body, by)).status).toBe(400);
  expect(told()).toEqual([]);
});

test('a screen may show and say what became of it, not lead; a phone may not speak for the room or fetch films', async () => {
  const screen = await letIn('room');
  const phone = await letIn('lead');
  expect((await ask('/press/', press('next'), screen.by)).status).toBe(404);
  expect((await ask('/word/', { kind: 'clip-over', start: 3 }, phone.by)).status).toBe(404);
  expect((await ask('/footage/media/pads.mp4', undefined, phone.by)).status).toBe(404);
  expect(told()).toEqual([]);
  expect((await ask('/word/', { kind: 'clip-over', start: 3 }, screen.by)).status).toBe(200);
  expect(told()).toEqual([{ kind: 'room-word', class: 'saturday', word: { kind: 'clip-over', start: 3 } }]);
  // Its film element says no header, but the cookie that the pairing left.
  expect((await ask('/footage/media/pads.mp4', undefined, { cookie: screen.cookie })).text).toBe(
    'footage /media/pads.mp4',
  );
});

test('guests of the network change nothing: without being let in, from another site, by another name, with a cookie alone', async () => {
  const { by, cookie } = await letIn('room');
  const lead = await letIn('lead');
  const tries = await Promise.all([
    ask('/press/', press('next')),
    ask('/press/', press('next'), { 'x-liftside-phone': 'guessed' }),
    ask('/press/', press('next'), { ...lead.by, origin: 'http://elsewhere.example' }),
    ask('/press/', press('next'), { ...lead.by, host: 'garage.example' }),
    ask('/word/', { kind: 'clip-over', start: 1 }, { cookie }),
    ask('/now/'),
    ask('/footage/media/pads.mp4'),
    ask('/cutting-room/api/day/events/', { class: 'saturday', events: [] }, lead.by),
    ask('/list/', undefined, lead.by),
    ask('/taps/', { taps: [] }, by),
  ]);
  expect(tries.map(({ status }) => status)).toEqual([401, 401, 403, 403, 401, 401, 401, 404, 404, 404]);
  expect(told()).toEqual([]);
});

test('closed, nobody of them is let in any more', async () => {
  const { by } = await letIn('lead');
  await room.own('/cutting-room/api/phone/close/', {});
  await expect(ask('/press/', press('next'), by)).rejects.toThrow(/ECONNREFUSED/);
  expect(told()).toEqual([]);
});

test('what the room sees is said in the first language of the shop, on this machine and on another', async () => {
  const shop = join(room.content, 'shop.yaml');
  const english = await readFile(shop, 'utf8');
  const pages = async () => [
    (await room.ask('/classes/saturday/present/room/')).text,
    (await room.ask('/classes/saturday/present/')).text,
    (await invite('room')) && (await ask('/room/')).text,
  ];
  const handed = (page = '') => JSON.parse(/id="messages">([^<]*)</.exec(page)?.[1] ?? '{}');
  for (const page of await pages()) {
    expect(page).toContain('<html lang="en">');
    expect(handed(page)).toEqual({});
  }
  await writeFile(shop, `${english}languages: [es, en]\n`);
  try {
    const [here, lead, there] = await pages();
    for (const page of [here, there]) expect(page).toContain('<html lang="es">');
    // What the one who leads shows the room is made in their window.
    for (const page of [here, lead, there])
      expect(handed(page)).toMatchObject({ 'Thank you for coming': 'Gracias por venir', WARNING: 'ADVERTENCIA' });
    expect(here).toContain('Abriendo Saturday.');
    expect(there).toContain('Esperando la clase.');
    expect(lead).toContain('<html lang="en">');
  } finally {
    await writeFile(shop, english);
  }
});
