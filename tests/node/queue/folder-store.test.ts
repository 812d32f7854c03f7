import { copyFile, mkdir, mkdtemp, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { FolderStore } from '../../../src/node/queue/folder-store.ts';
import { patientStore, StoreAway } from '../../../src/node/queue/media-store.ts';

const RESULT = `encode-picture-${'a'.repeat(32)}.mp4`;
const CAMERA = `file-${'b'.repeat(64)}`;

let folder: string;
let root: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-store-'));
  root = join(folder, 'store');
  await mkdir(root);
});
afterEach(() => rm(folder, { recursive: true, force: true }));

async function file(name: string, text: string): Promise<string> {
  await writeFile(join(folder, name), text);
  return join(folder, name);
}

test('what is put there is found under its name; what is there stays', async () => {
  const store = await FolderStore.open(root);
  expect(await store.has(RESULT)).toBe(false);
  await store.put(await file('a', 'one'), RESULT);
  await store.put(await file('b', 'two'), RESULT);
  expect(await readFile(await store.get(RESULT), 'utf8')).toBe('one');
  expect(await readdir(join(root, 'tmp'))).toEqual([]);
});

test('a folder is put there whole, and twice at once comes to one', async () => {
  const store = await FolderStore.open(root);
  await mkdir(join(folder, 'found'));
  await file('found/facts.json', '{}');
  const name = `analyse-${'c'.repeat(32)}.found`;
  await Promise.all([store.put(join(folder, 'found'), name), store.put(join(folder, 'found'), name)]);
  expect(await readdir(await store.get(name))).toEqual(['facts.json']);
});

test('a camera file that another is copied over stays in the store as it was', async () => {
  const store = await FolderStore.open(root);
  const camera = await file('camera.mp4', 'one');
  await store.put(camera, CAMERA);
  await copyFile(await file('other.mp4', 'two'), camera);
  expect(await readFile(await store.get(CAMERA), 'utf8')).toBe('one');
});

test.each(['../secret', `${RESULT}/../../x`, 'store', `file-${'b'.repeat(63)}`, `a-${'a'.repeat(32)}.mp4/x`])(
  'the name %s leads nowhere',
  async (name) => {
    const store = await FolderStore.open(root);
    await expect(store.has(name)).rejects.toThrow('no name of a store');
    await expect(store.put(await file('a', 'one'), name)).rejects.toThrow('no name of a store');
  },
);

test('a store that is gone is told apart from one that lacks something, also where its mount point is left', async () => {
  const store = await FolderStore.open(root);
  await rename(root, join(folder, 'elsewhere'));
  await expect(store.has(RESULT)).rejects.toThrow(StoreAway);
  await mkdir(root);
  await expect(store.has(RESULT)).rejects.toThrow(StoreAway);
  await expect(store.put(await file('a', 'one'), RESULT)).rejects.toThrow(StoreAway);
});

test('a store that comes back is gone on with', async () => {
  const store = await FolderStore.open(root);
  await rename(root, join(folder, 'elsewhere'));
  const told: string[] = [];
  const patient = patientStore(store, new AbortController().signal, (words) => {
    told.push(words);
    void rename(join(folder, 'elsewhere'), root);
  });
  await patient.put(await file('a', 'one'), RESULT);
  expect(await store.has(RESULT)).toBe(true);
  expect(told).toEqual([`note: the store ${root} cannot be reached; waiting for it`]);
});

test('a folder that is not there, or holds something else, is no store', async () => {
  await expect(FolderStore.open(join(folder, 'none'))).rejects.toThrow('is not there');
  await file('store/letter.txt', 'mine');
  await expect(FolderStore.open(root)).rejects.toThrow('holds something else');
});
