import { chmod, link, mkdir, mkdtemp, readdir, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { lessonPage } from '../../../src/core/pages/index.ts';
import { footageOf } from '../../../src/node/site/footage.ts';
import { filmOf } from '../../../src/node/site/open-site.ts';
import { placeFootage } from '../../../src/node/site/place-footage.ts';
import { type Site, siteForPages } from '../../support/small-site.ts';

let root = '';
let site: Site;
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'liftside-footage-'));
  await mkdir(join(root, 'content/media'), { recursive: true });
  await writeFile(join(root, 'content/media/chain.mp4'), 'as the camera wrote it');
  site = siteForPages(join(root, 'content'));
});
afterEach(() => rm(root, { recursive: true, force: true }));

const original = () => join(root, 'content/media/chain.mp4');
const copyIn = (build: string) => join(root, build, 'footage/media/chain.mp4');
async function place(build: string, last?: string): Promise<number> {
  await mkdir(join(root, build));
  await placeFootage(site, join(root, build), last === undefined ? undefined : join(root, last));
  return (await stat(copyIn(build))).ino;
}

test('a program that edits the published footage changes no original', async () => {
  const ino = await place('one');
  expect(ino).not.toBe((await stat(original())).ino);
  expect((await stat(original())).nlink).toBe(1);
  await writeFile(copyIn('one'), 'edited in place');
  expect(await readFile(original(), 'utf8')).toBe('as the camera wrote it');
});

test('a copy that is still the copy of the same original is taken over, not copied again', async () => {
  const one = await place('one');
  expect(await place('two', 'one')).toBe(one);
  await rm(join(root, 'one'), { recursive: true });
  expect(await place('three', 'two')).toBe(one);
  expect(await readFile(copyIn('three'), 'utf8')).toBe('as the camera wrote it');
  expect((await stat(original())).nlink).toBe(1);
});

test('an original that was written anew is copied again: size, time of change or file', async () => {
  const { atime, mtime } = await stat(original());
  const builds = ['one'];
  const next = async () => {
    const ino = await place(String(builds.length), builds.at(-1));
    builds.push(String(builds.length));
    return ino;
  };
  let before = await place('one');
  for (const change of [
    () => writeFile(original(), 'of another length, at another time'),
    // The same length and time in another file, as a copying program leaves it.
    async () => {
      await rm(original());
      await writeFile(original(), 'AS THE CAMERA WROTE IT');
      await utimes(original(), atime, mtime);
    },
  ]) {
    await change();
    const after = await next();
    expect(after).not.toBe(before);
    expect(await readFile(copyIn(builds.at(-1) ?? ''), 'utf8')).toBe(await readFile(original(), 'utf8'));
    before = after;
  }
});

test('a copy that somebody has edited is not taken over', async () => {
  await place('one');
  await writeFile(copyIn('one'), 'edited');
  await place('two', 'one');
  expect(await readFile(copyIn('two'), 'utf8')).toBe('as the camera wrote it');
});

test('notes that make no sense cost a copy, nothing else', async () => {
  await place('one');
  await writeFile(join(root, 'one/.liftside-footage.json'), '{"media/chain.mp4":1');
  await place('two', 'one');
  expect(await readFile(copyIn('two'), 'utf8')).toBe('as the camera wrote it');
});

test('an original that the system links elsewhere is copied all the same', async () => {
  await link(original(), join(root, 'content/media/second-name.mp4'));
  await chmod(original(), 0o444);
  await place('one');
  expect((await stat(copyIn('one'))).nlink).toBe(1);
  expect(await readdir(join(root, 'one'))).toContain('.liftside-footage.json');
});

test('uncut originals are published only where that was asked for', async () => {
  const lesson = site.shop.lessons[0]!;
  const filesPlayed = (wanted: Site) =>
    lessonPage(wanted.shop, lesson, filmOf(wanted, lesson.recording), (path) => path).player.files.map(
      ({ url }) => url,
    );
  expect(filesPlayed(site)).toEqual(['footage/media/chain.mp4']);
  const withoutUncut: Site = { ...site, unrendered: 'none' };
  expect([...footageOf(withoutUncut)]).toEqual([]);
  expect(filesPlayed(withoutUncut)).toEqual([]);
  const [length, frame, file] = [705_600_000, 28_224_000, join(root, 'programme.mp4')];
  const programme = { parts: [{ file, length }], length, frame };
  const finished: Site = { ...withoutUncut, rendered: new Map([[lesson.recording, programme]]) };
  expect([...footageOf(finished).values()]).toEqual([file]);
  expect(filesPlayed(finished)).toEqual([`footage/rendered/${lesson.recording}.mp4`]);
  // One that lies in two files is played from both.
  const parts = [file, join(root, 'programme-2.mp4')].map((each) => ({ file: each, length: length / 2 }));
  const divided: Site = { ...finished, rendered: new Map([[lesson.recording, { ...programme, parts }]]) };
  const paths = [1, 2].map((part) => `rendered/${lesson.recording}.${part}.mp4`);
  expect([...footageOf(divided)]).toEqual(paths.map((path, i) => [path, parts[i]?.file]));
  expect(filesPlayed(divided)).toEqual(paths.map((path) => `footage/${path}`));
});
