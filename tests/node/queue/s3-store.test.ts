import { randomBytes } from 'node:crypto';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fingerprint } from '../../../src/node/media/fingerprint.ts';
import { type MediaStore, NotInStore, StoreAway } from '../../../src/node/queue/media-store.ts';
import { openMediaStore } from '../../../src/node/queue/open-store.ts';
import { startS3, type TestS3 } from '../../support/s3-server.ts';

// Reference: s3rver, a server that was not written here. It refuses what is asked at another time, and what it does not
// know of S3; that requests are signed rightly s3-client.test.ts holds against published signatures.

let folder: string;
let server: TestS3;
let store: MediaStore;
const path = (name: string) => join(folder, name);
const open = (more: Record<string, string> = {}) => {
  const env = { ...server.env, ...more };
  return openMediaStore({ address: '', token: '', store: env.LIFTSIDE_STORE ?? '' }, folder, env);
};
const NAME = `encode-picture-${'1'.repeat(32)}.mp4`;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-s3-'));
  server = await startS3(path('server'));
  store = await open();
});
afterAll(async () => {
  await server.kill();
  await rm(folder, { recursive: true, force: true });
});

async function put(name: string, bytes: Uint8Array): Promise<void> {
  await writeFile(path('given'), bytes);
  await store.put(path('given'), name);
}

const got = async (name: string) => readFile(await store.get(name, await mkdtemp(path('got-'))));

test('a file comes back as it was, and what is there stays as it is', async () => {
  const bytes = randomBytes(700_000);
  expect(await store.has(NAME)).toBe(false);
  await put(NAME, bytes);
  expect(await store.has(NAME)).toBe(true);
  expect(bytes.equals(await got(NAME))).toBe(true);
  await put(NAME, Buffer.from('something else'));
  expect(bytes.equals(await got(NAME))).toBe(true);
});

test('an empty file too', async () => {
  const name = `measure-sound-${'2'.repeat(32)}.json`;
  await put(name, Buffer.alloc(0));
  expect((await got(name)).length).toBe(0);
});

test('a large file goes in parts, and its bytes can be read from anywhere in it', async () => {
  const bytes = randomBytes((37 << 20) + 12_345);
  await writeFile(path('large'), bytes);
  const name = `file-${await fingerprint(path('large'))}`;
  await store.put(path('large'), name);
  expect(server.said().match(/partNumber=\d+&uploadId=\S+ 200/g)).toHaveLength(3);
  const remote = await store.remote?.(name);
  const block = remote?.block ?? 0;
  expect(remote?.bytes).toBe(bytes.length);
  const [start, end] = [65 * block, 70 * block];
  expect(Buffer.from((await remote?.read(start, end)) ?? []).equals(bytes.subarray(start, end))).toBe(true);
  const tail = Math.floor(bytes.length / block) * block;
  expect(Buffer.from((await remote?.read(tail, bytes.length)) ?? []).equals(bytes.subarray(tail))).toBe(true);
  expect(bytes.equals(await got(name))).toBe(true);
});

test('a folder comes back with what was in it', async () => {
  const name = `analyse-${'3'.repeat(32)}.found`;
  await mkdir(path('found'));
  await writeFile(path('found/facts.json'), '{}');
  await writeFile(path('found/peaks.s8'), randomBytes(300_000));
  await store.put(path('found'), name);
  const back = await store.get(name, await mkdtemp(path('got-')));
  expect((await readdir(back)).toSorted()).toEqual(['facts.json', 'peaks.s8']);
  expect((await readFile(join(back, 'peaks.s8'))).equals(await readFile(path('found/peaks.s8')))).toBe(true);
  expect(await store.remote?.(name)).toBeUndefined();
});

test('what is not there is told by name, and so is a bucket', async () => {
  await expect(store.get(`encode-sound-${'4'.repeat(32)}.aac`, folder)).rejects.toThrow(NotInStore);
  await expect(open({ LIFTSIDE_STORE: 's3://elsewhere' })).rejects.toThrow('there is no bucket elsewhere');
});

test.each(['../secret', 'a/b', '', 'encode-picture-1.mp4', `file-${'0'.repeat(63)}/`])(
  'the name %s leads nowhere',
  async (name) => {
    await expect(store.has(name)).rejects.toThrow('is no name of a store');
  },
);

test('one changed byte is noticed', async () => {
  const name = `join-pictures-${'5'.repeat(32)}.mp4`;
  await put(name, randomBytes(600_000));
  const files = (await readdir(server.folder, { recursive: true })).filter((file) => file.includes('5'.repeat(32)));
  const [object = ''] = files.filter((file) => /data\/.*object$/.test(file));
  const bytes = await readFile(join(server.folder, object));
  bytes[400_000] = (bytes[400_000] ?? 0) ^ 1;
  await writeFile(join(server.folder, object), bytes);
  await expect(got(name)).rejects.toThrow(`${name} in the store s3://shop/region/liftside is not what was put there`);
  const remote = await store.remote?.(name);
  expect((await remote?.read(0, remote.block))?.length).toBe(remote?.block);
});

test('a server that is gone is away, and answers again once it is back', async () => {
  await server.kill();
  await expect(store.has(NAME)).rejects.toThrow(StoreAway);
  await server.start();
  expect(await store.has(NAME)).toBe(true);
});

test('a camera file that changes while it is sent does not pass for what it was', async () => {
  await writeFile(path('take'), randomBytes(1000));
  const name = `file-${await fingerprint(path('take'))}`;
  await cp(path('given'), path('take'));
  await expect(store.put(path('take'), name)).rejects.toThrow('was changed while it was sent');
  expect(await store.has(name)).toBe(false);
});

test.each([
  [{ LIFTSIDE_STORE: 's3://' }, 'is no name of a bucket'],
  [{ LIFTSIDE_STORE: 's3://shop/../other' }, 'is no name of a bucket'],
  [{ AWS_ENDPOINT_URL_S3: 'ftp://x' }, 'AWS_ENDPOINT_URL_S3 does not say'],
  [{ AWS_ACCESS_KEY_ID: '' }, 'is not set'],
])('%o is told', async (env, words) => {
  await expect(open(env)).rejects.toThrow(words);
});

test('without a prefix it lies at the top of the bucket', async () => {
  const top = await open({ LIFTSIDE_STORE: 's3://shop' });
  expect([top.shown, await top.has(NAME)]).toEqual(['s3://shop', false]);
  await top.put(path('given'), NAME);
  expect((await stat(join(server.folder, 'entries'))).isDirectory()).toBe(true);
});
