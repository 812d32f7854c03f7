import { appendFile, mkdir, mkdtemp, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { FilmSums } from '../../../src/node/site/film-sums.ts';
import { placeFootage } from '../../../src/node/site/place-footage.ts';
import { siteForPages } from '../../support/small-site.ts';

// SHA-256 of "abc" (FIPS 180-4, example published with it: SHA256.pdf, one-block message sample).
const ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
const LONG_AGO = new Date('2026-01-02T03:04:05Z');
const FILM = 'footage/media/chain.mp4';

let root = '';
let content = '';
const original = () => join(content, 'media/chain.mp4');
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'liftside-sums-'));
  content = join(root, 'content');
  await mkdir(join(content, 'media'), { recursive: true });
  await writeFile(original(), 'abc');
  await utimes(original(), LONG_AGO, LONG_AGO);
});
afterEach(() => rm(root, { recursive: true, force: true }));

/** Builds a site of this name and sums its film: the sum, and how many films had to be read. */
async function build(name: string, after: () => Promise<unknown> = async () => {}) {
  const site = join(root, name);
  await mkdir(site);
  await placeFootage(siteForPages(content), site, undefined);
  await after();
  const sums = await FilmSums.open(site, content);
  const [piece] = await sums.piecesOf(FILM);
  await sums.close();
  return { sha256: piece?.sha256, bytes: piece?.bytes, read: sums.read };
}

test('a film that is what it was is not read by the next build', async () => {
  expect(await build('one')).toEqual({ sha256: ABC, bytes: 3, read: 1 });
  expect(await build('two')).toEqual({ sha256: ABC, bytes: 3, read: 0 });
});

test.each<[string, () => Promise<unknown>]>([
  ['other bytes, in the same file at another time', () => writeFile(original(), 'abd')],
  [
    'more bytes, with the old time',
    () => appendFile(original(), 'd').then(() => utimes(original(), LONG_AGO, LONG_AGO)),
  ],
  [
    'another file of the same size and time',
    async () => {
      const { ino } = await stat(original());
      await writeFile(join(content, 'media/new.mp4'), 'abd');
      await rm(original());
      await writeFile(original(), 'abd');
      // The number may be given again at once: then another file has to stand in its place.
      if ((await stat(original())).ino === ino) {
        const { rename } = await import('node:fs/promises');
        await rename(join(content, 'media/new.mp4'), original());
      }
      await utimes(original(), LONG_AGO, LONG_AGO);
    },
  ],
])('%s: it is read again', async (_, change) => {
  await build('one');
  await change();
  const built = await build('two');
  expect(built.read).toBe(1);
  expect(built.sha256).not.toBe(ABC);
});

test('a copy that somebody has changed is read, and what was read of it is not kept', async () => {
  await build('one');
  const changed = await build('two', () => writeFile(join(root, 'two', FILM), 'abd'));
  expect(changed.read).toBe(1);
  expect(changed.sha256).not.toBe(ABC);
  expect(await build('three')).toMatchObject({ sha256: ABC });
});

test('a film changed a moment ago is read by the next build too: it may change again within one tick of the clock', async () => {
  const now = new Date();
  await utimes(original(), now, now);
  await build('one');
  expect(await build('two')).toMatchObject({ read: 1 });
});

test.each(['', '{', '{"version":1,"pieceBytes":5,"films":{}}', '{"version":2}'])(
  'with %j kept, it is read',
  async (text) => {
    await build('one');
    const file = join(content, '.liftside/film-sums.json');
    expect(await readFile(file, 'utf8')).toContain(ABC);
    await writeFile(file, text);
    expect(await build('two')).toMatchObject({ sha256: ABC, read: 1 });
  },
);
