import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readdir, readFile, realpath, rename, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { homedir, tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { holdOutput, mendFolder, placeFolder } from '../../../src/node/files/index.ts';
import { MARKER } from '../../../src/node/files/made-folder.ts';
import { mayMount, mountSmallDisk } from '../../support/small-disk.ts';

let root = '';
let content = '';
let target = '';
beforeEach(async () => {
  root = await realpath(await mkdtemp(join(tmpdir(), 'liftside-place-')));
  content = join(root, 'shop/content');
  target = join(root, 'out/site');
  await mkdir(join(content, 'media'), { recursive: true });
  await mkdir(join(root, 'out'));
});
afterEach(() => rm(root, { recursive: true, force: true }));

const output = (folder = target) => ({ target: folder, holds: 'a site' as const, content });
const place = (text: string, folder = target) =>
  placeFolder({ ...output(folder), what: 'a build' }, async (next) => {
    await mkdir(join(next, 'pages'));
    await writeFile(join(next, 'index.html'), text);
    await writeFile(join(next, `pages/${text}.html`), text);
  });
const refusal = (folder: string) =>
  holdOutput(output(folder)).then(
    () => 'allowed',
    (error: Error) => error.message,
  );
const there = () => readdir(target, { recursive: true }).then((names) => names.toSorted());

test('a new folder, an empty one and one made before are filled; only the new files are in it then, and nothing beside', async () => {
  await place('one');
  expect(await there()).toEqual([MARKER, 'index.html', 'pages', 'pages/one.html']);
  await place('two');
  expect(await there()).toEqual([MARKER, 'index.html', 'pages', 'pages/two.html']);
  await mkdir(join(root, 'out/empty'));
  await place('three', join(root, 'out/empty'));
  await place('four', join(root, 'out/deep/down/site'));
  expect((await readdir(join(root, 'out'))).toSorted()).toEqual(['deep', 'empty', 'site']);
});

test('a folder of somebody else is refused by what it holds, and keeps it', async () => {
  await mkdir(target);
  for (const name of ['notes.txt', 'a.jpg', 'b.jpg', 'c.jpg']) await writeFile(join(target, name), 'mine');
  await expect(place('one')).rejects.toThrow(
    `${target} was not made by Liftside and is not empty: it holds a.jpg, b.jpg, c.jpg and 1 more`,
  );
  // A file of the marker's name is not enough.
  await writeFile(join(target, MARKER), '{}');
  await expect(place('one')).rejects.toThrow('was not made by Liftside');
  expect(await there()).toEqual([MARKER, 'a.jpg', 'b.jpg', 'c.jpg', 'notes.txt']);
});

test('what somebody has put into a made folder since is named and kept, also where it came while the new one was made', async () => {
  await place('one');
  await mkdir(join(target, 'pages/own'));
  await writeFile(join(target, 'pages/own/notes.txt'), 'mine');
  await expect(place('two')).rejects.toThrow(`${target} holds what Liftside did not put there: pages/own/notes.txt`);
  await rm(join(target, 'pages/own'), { recursive: true });
  await writeFile(join(target, '.DS_Store'), 'of a file manager');
  const late = placeFolder({ ...output(), what: 'a build' }, () => writeFile(join(target, 'late.txt'), 'mine'));
  await expect(late).rejects.toThrow('did not put there: late.txt');
  expect(await readFile(join(target, 'index.html'), 'utf8')).toBe('one');
  expect(await readdir(join(root, 'out'))).toEqual(['site']);
});

test('a folder made for something else is refused', async () => {
  await place('one');
  const render = placeFolder({ ...output(), holds: 'a rendered programme', what: 'a render' }, async () => undefined);
  await expect(render).rejects.toThrow(`${target} holds a site, and a rendered programme would take its place`);
});

test('homes, roots, the content and what holds it, and Liftside itself are refused, marker or not', async () => {
  const home = resolve(import.meta.dirname, '../../..');
  for (const [folder, reason] of [
    ['/', 'is the root of a disk'],
    [homedir(), 'is a home folder, or holds one'],
    ['/home', 'is a home folder, or holds one'],
    ['/home/somebody', 'is a home folder, or holds one'],
    [content, 'is the content folder'],
    [join(root, 'shop'), `holds the content folder ${content}`],
    [join(content, 'media'), 'lies in media/ of the content folder'],
    [join(content, 'lessons/site'), 'lies in lessons/ of the content folder'],
    [home, 'holds Liftside itself'],
    [dirname(home), 'holds Liftside itself'],
  ] as const)
    expect(await refusal(folder)).toBe(`${folder} ${reason}, and what is there would be replaced`);
  await placeFolder({ ...output(join(root, 'shop/a')), what: 'a build' }, async () => undefined);
  await rename(join(root, 'shop/a', MARKER), join(root, 'shop', MARKER));
  expect(await refusal(join(root, 'shop'))).toContain('holds the content folder');
  expect(await refusal(join(content, 'dist'))).toBe('allowed');
});

test('never through a link, whatever it leads to', async () => {
  await place('one');
  await symlink(target, join(root, 'link'));
  await symlink(join(root, 'nowhere'), join(root, 'dangling'));
  expect(await refusal(join(root, 'link'))).toBe(`${join(root, 'link')} is reached by the link ${join(root, 'link')}`);
  expect(await refusal(join(root, 'dangling'))).toContain('is reached by the link');
  expect(await refusal(join(root, 'link/new'))).toContain('is reached by the link');
  await expect(place('two', join(root, 'link'))).rejects.toThrow('is reached by the link');
  expect(existsSync(join(root, 'nowhere'))).toBe(false);
  expect(await readFile(join(target, 'index.html'), 'utf8')).toBe('one');
});

test('a file in the way is refused', async () => {
  await writeFile(target, 'mine');
  expect(await refusal(target)).toBe(`${target} is a file, not a folder`);
});

test('where making it fails or is stopped, the last one stays and nothing is left beside it', async () => {
  const failing = (folder: string) =>
    placeFolder({ ...output(folder), what: 'a build' }, async (next) => {
      await writeFile(join(next, 'index.html'), 'half');
      throw new Error('no');
    });
  await expect(failing(join(root, 'out/new/site'))).rejects.toThrow('no');
  expect(await readdir(join(root, 'out'))).toEqual([]);
  await place('one');
  await expect(failing(target)).rejects.toThrow('no');
  const stop = new AbortController();
  const stopped = placeFolder({ ...output(), what: 'a build', signal: stop.signal }, async () => stop.abort());
  await expect(stopped).rejects.toThrow('aborted');
  expect(await readFile(join(target, 'index.html'), 'utf8')).toBe('one');
  expect(await readdir(join(root, 'out'))).toEqual(['site']);
});

test('the folder keeps its mode: a web server may go on reading it', async () => {
  await mkdir(target, { mode: 0o711 });
  await place('one');
  expect((await stat(target)).mode & 0o777).toBe(0o711);
});

test('who comes while another one is at work is told, at once', async () => {
  let begun = () => {};
  let end = () => {};
  const under = new Promise<void>((done) => {
    begun = done;
  });
  const first = placeFolder({ ...output(), what: 'a build' }, () => {
    begun();
    return new Promise<void>((done) => {
      end = done;
    });
  });
  await under;
  await expect(place('two')).rejects.toThrow(`another Liftside is at work here: a build, process ${process.pid}`);
  end();
  await first;
  expect(await readdir(join(root, 'out'))).toEqual(['site']);
});

const ID = '11111111-2222-3333-4444-555555555555';
test.each([
  ['the new one where it is whole', 'two', true],
  ['the old one where it is not', 'one', false],
])('killed between the two renames, %s takes the place', async (_, text, whole) => {
  await place('two', join(root, 'out/whole'));
  await place('one');
  await rename(target, join(root, `out/.site.last-${ID}`));
  await rename(join(root, 'out/whole'), join(root, `out/.site.next-${ID}`));
  if (!whole) await rm(join(root, `out/.site.next-${ID}`, MARKER));
  await mendFolder(target);
  expect(await readFile(join(target, 'index.html'), 'utf8')).toBe(text);
  expect(await readdir(join(root, 'out'))).toEqual(['site']);
});

test('what killed runs have left goes with the next one; names that only look alike stay', async () => {
  await mkdir(join(root, `out/.site.next-${ID}/half`), { recursive: true });
  for (const name of ['.site.next-mine', `.sites.next-${ID}`, `site.next-${ID}`]) await mkdir(join(root, 'out', name));
  await place('one');
  expect((await readdir(join(root, 'out'))).toSorted()).toEqual(
    ['.site.next-mine', `.sites.next-${ID}`, 'site', `site.next-${ID}`].toSorted(),
  );
});

test.skipIf(!mayMount())('a disk that is full or read-only keeps the last one, in words', async () => {
  const disk = mountSmallDisk(join(root, 'disk'), 512);
  const folder = join(root, 'disk/site');
  try {
    expect(await refusal(join(root, 'disk'))).toContain('is the root of a disk, which cannot be replaced');
    await place('one', folder);
    const long = (bytes: number) =>
      placeFolder({ ...output(folder), what: 'a build' }, (next) =>
        writeFile(join(next, 'film.mp4'), Buffer.alloc(bytes)),
      );
    await expect(long(600 << 10)).rejects.toThrow(`${folder} could not be made: the disk is full`);
    disk.readOnly(true);
    await expect(place('two', folder)).rejects.toThrow(`${folder} could not be made: the disk is read-only`);
    disk.readOnly(false);
    expect(await readFile(join(folder, 'index.html'), 'utf8')).toBe('one');
    expect(await readdir(join(root, 'disk'))).toEqual(['site']);
    await long(100 << 10);
    expect((await readdir(folder)).toSorted()).toEqual([MARKER, 'film.mp4']);
  } finally {
    disk.unmount();
  }
});
