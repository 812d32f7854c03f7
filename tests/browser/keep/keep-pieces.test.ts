import { hash } from 'node:crypto';
import { afterEach, expect, test } from 'vitest';
import { KeepingStopped, keepPieces, missingPieces } from '../../../src/browser/keep/keep-pieces.ts';
import { KeptStore } from '../../../src/browser/keep/kept-store.ts';
import type { KeepList, KeptFile } from '../../../src/core/keep/index.ts';
import { MemoryCaches } from './memory-caches.ts';

const SITE = 'https://shop.example/garage/';
const FILM = 'abcdefghij';
const PIECE = 4;

/** What the site gives out, by address; some tests change it. */
const files = new Map<string, string>();
const asked: string[] = [];

function fileOf(path: string, text: string): KeptFile {
  const pieces = Array.from({ length: Math.ceil(text.length / PIECE) }, (_, n) =>
    text.slice(n * PIECE, (n + 1) * PIECE),
  );
  return {
    path,
    type: 'text/plain',
    pieces: pieces.map((piece) => ({
      bytes: piece.length,
      sha256: hash('sha256', piece),
    })),
  };
}

function listOf(...kept: readonly (readonly [string, string])[]): KeepList {
  return {
    ...{ format: 'kept lesson', version: 1, lesson: 'chain', title: 'Chain', made: '2026-11-27', edition: 'one' },
    ...{ values: [], corrections: [] },
    files: kept.map(([path, text]) => fileOf(path, text)),
  };
}

async function site(address: URL, { headers }: RequestInit): Promise<Response> {
  const range = new Headers(headers).get('range') ?? '';
  const text = files.get(address.href);
  asked.push(`${address.pathname} ${range}`.trim());
  if (text === 'gone away') throw new TypeError('Failed to fetch');
  if (text === undefined) return new Response('', { status: 404 });
  const [, from, to] = /bytes=(\d+)-(\d+)/.exec(range) ?? [];
  return from === undefined
    ? new Response(text)
    : new Response(text.slice(Number(from), Number(to) + 1), { status: 206 });
}
afterEach(() => {
  files.clear();
  asked.length = 0;
});

const list = listOf(['lessons/chain/', 'page'], ['film.mp4', FILM]);
const keep = async (caches: MemoryCaches, of = list, signal = new AbortController().signal, ask = site) => {
  const heard: number[] = [];
  const store = new KeptStore(caches.storage, '/garage/', 'https://shop.example');
  const stopped = await keepPieces({
    list: of,
    store,
    site: SITE,
    signal,
    ask,
    progress: (bytes) => heard.push(bytes),
  }).then(
    () => undefined,
    (error: unknown) => error,
  );
  return { heard, stopped, missing: (await missingPieces(of, store)).length, store };
};

test('every piece is fetched by its range, held against its sum and kept once; a second time nothing is fetched', async () => {
  files.set(`${SITE}lessons/chain/`, 'page').set(`${SITE}film.mp4`, FILM);
  const caches = new MemoryCaches();
  const first = await keep(caches);
  expect(first).toMatchObject({ heard: [4, 8, 12, 14], stopped: undefined, missing: 0 });
  expect(asked).toEqual([
    '/garage/lessons/chain/',
    '/garage/film.mp4 bytes=0-3',
    '/garage/film.mp4 bytes=4-7',
    '/garage/film.mp4 bytes=8-9',
  ]);
  asked.length = 0;
  expect(await keep(caches)).toMatchObject({ heard: [4, 8, 12, 14], stopped: undefined });
  expect(asked).toEqual([]);
});

test('a connection that is lost costs what had not arrived, and nothing else', async () => {
  files.set(`${SITE}lessons/chain/`, 'page').set(`${SITE}film.mp4`, 'gone away');
  const caches = new MemoryCaches();
  const { stopped, missing } = await keep(caches);
  expect(stopped).toBeInstanceOf(KeepingStopped);
  expect([stopped, missing]).toEqual([
    expect.objectContaining({ message: 'the connection was lost', changed: false }),
    3,
  ]);
  files.set(`${SITE}film.mp4`, FILM);
  asked.length = 0;
  expect(await keep(caches)).toMatchObject({ stopped: undefined, missing: 0 });
  expect(asked).toHaveLength(3);
});

test.each([
  ['other bytes than the list says', 'abcdefghiX', 'the site has changed meanwhile', true],
  ['a file that is gone', undefined, 'the site has changed meanwhile', true],
])('%s: nothing wrong is kept, and it is told', async (_, text, message, changed) => {
  files.set(`${SITE}lessons/chain/`, 'page');
  if (text !== undefined) files.set(`${SITE}film.mp4`, text);
  const { stopped, missing } = await keep(new MemoryCaches());
  expect(stopped).toMatchObject({ message, changed });
  expect(missing).toBeGreaterThan(0);
});

test('a server that gives out films only whole is named as the reason', async () => {
  const whole = async () => new Response('page');
  const { stopped } = await keep(new MemoryCaches(), list, undefined, whole);
  expect(stopped).toMatchObject({ message: 'this server gives out films only whole' });
});

test('without room it says so, and what has arrived stays', async () => {
  files.set(`${SITE}lessons/chain/`, 'page').set(`${SITE}film.mp4`, FILM);
  const caches = new MemoryCaches(2);
  const { stopped, missing } = await keep(caches);
  expect([stopped, missing]).toEqual([expect.objectContaining({ message: 'this device has no room left for it' }), 2]);
  caches.most = 99;
  expect(await keep(caches)).toMatchObject({ stopped: undefined, missing: 0 });
});

test('pieces that no copy needs go; what another lesson needs stays; the last one takes all with it', async () => {
  files
    .set(`${SITE}lessons/chain/`, 'page')
    .set(`${SITE}film.mp4`, FILM)
    .set(`${SITE}b`, 'page')
    .set(`${SITE}c`, 'old!');
  const caches = new MemoryCaches();
  const { store } = await keep(caches);
  const other = { ...listOf(['b', 'page'], ['c', 'old!']), lesson: 'brake' };
  await keep(caches, other);
  const record = { looked: '2026-11-27T10:00:00Z', words: { values: [], corrections: [] } };
  await store.put('chain', { ...record, list });
  await store.put('brake', { ...record, list: other });
  await store.tidy();
  expect(caches.names('pieces')).toHaveLength(5);
  // The first lesson shares its page with the other one.
  expect(await store.remove('chain')).toBe(false);
  expect([caches.names('pieces').length, (await missingPieces(other, store)).length]).toEqual([2, 0]);
  expect((await store.lessons()).map((kept) => kept.list?.lesson)).toEqual(['brake']);
  expect(await store.remove('brake')).toBe(true);
  expect(caches.names('')).toEqual([]);
});
