import { existsSync } from 'node:fs';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { Store } from '../../../src/node/media/store.ts';

let content = '';
beforeEach(async () => {
  content = await mkdtemp(join(tmpdir(), 'liftside-store-'));
});
afterEach(() => rm(content, { recursive: true, force: true }));

/** A folder with a file in it that says the word, not yet in its place. */
async function result(store: Store, word: string): Promise<string> {
  const folder = await store.temporaryFolder();
  await writeFile(join(folder, 'facts.json'), word);
  return folder;
}

test('of two runs that finish the same folder, the first one’s stays as it is, and what the second one made is cleared away', async () => {
  const store = await Store.open(content);
  const place = join(store.root, 'media/look-1');
  await store.keep(await result(store, 'first'), place);
  await store.keep(await result(store, 'second'), place);
  await store.close();
  expect(await readdir(place)).toEqual(['facts.json']);
  expect(await readFile(join(place, 'facts.json'), 'utf8')).toBe('first');
  expect(await readdir(join(store.root, 'tmp'))).toEqual([]);
});

test('a place that is not there is told', async () => {
  const store = await Store.open(content);
  await expect(store.keep(await result(store, 'a'), join(store.root, 'nowhere/look-1'))).rejects.toThrow(/ENOENT/);
  await store.close();
});

test('of two stores open at once in one process, each keeps what it has begun', async () => {
  const first = await Store.open(content);
  const begun = await first.temporaryFolder();
  const second = await Store.open(content);
  expect(existsSync(begun)).toBe(true);
  await second.close();
  expect(existsSync(begun)).toBe(true);
  await first.close();
  expect(existsSync(begun)).toBe(false);
});
