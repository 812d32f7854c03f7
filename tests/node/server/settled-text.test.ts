import { mkdtemp, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Hub } from '../../../src/node/server/hub.ts';
import { SettledTexts } from '../../../src/node/server/settled-text.ts';

let dir = '';
let file = '';
let told: (string | null)[] = [];
let texts: SettledTexts;

beforeEach(async () => {
  dir = await mkdtemp(join(tmpdir(), 'liftside-settled-'));
  file = join(dir, 'a.mdx');
  const hub = new Hub();
  told = [];
  hub.listen((news) => news.kind === 'file' && told.push(news.text));
  texts = new SettledTexts(hub);
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance'] });
});
afterEach(async () => {
  texts.stop();
  vi.useRealTimers();
  await rm(dir, { recursive: true });
});

const note = () => texts.note('a.mdx', file);

/** Lets so many milliseconds of the pretended clock go by, 60 at a time, and what is read in them be read. */
async function pass(ms: number): Promise<void> {
  for (let gone = 0; gone < ms; gone += 60) {
    const before = told.length;
    vi.advanceTimersByTime(60);
    while (told.length === before && vi.getTimerCount() === 0) await new Promise((done) => setImmediate(done));
  }
}

test('a file that is emptied before it is filled is told once, whole', async () => {
  await writeFile(file, '');
  note();
  await pass(300);
  expect(told).toEqual([]);
  await writeFile(file, 'whole');
  await pass(60);
  expect(told).toEqual(['whole']);
});

test('one that stays empty is told as empty after all', async () => {
  await writeFile(file, '');
  note();
  await pass(1560);
  expect(told).toEqual(['']);
});

test('of several changes in a row the last is told', async () => {
  await writeFile(file, 'one');
  note();
  vi.advanceTimersByTime(59);
  await writeFile(file, 'one, two');
  note();
  vi.advanceTimersByTime(59);
  await writeFile(`${file}.new`, 'three');
  await rename(`${file}.new`, file);
  note();
  await pass(60);
  expect(told).toEqual(['three']);
});

test('a file that is gone is told as null', async () => {
  note();
  await pass(60);
  expect(told).toEqual([null]);
});
