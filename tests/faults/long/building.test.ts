import { existsSync } from 'node:fs';
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { MARKER } from '../../../src/node/files/made-folder.ts';
import { mayMount, mountSmallDisk } from '../../support/small-disk.ts';
import { child, contents, countChanges, figures, inFolder, MAIN, watching } from '../support/run.ts';
import { filmedShop } from '../support/shop.ts';

let end = () => {};
let root = '';
let content = '';
beforeAll(async () => {
  const given = new Promise<string>((use) => {
    const whole = inFolder('building', (folder) => {
      use(folder);
      return new Promise<void>((done) => {
        end = done;
      });
    });
    void whole;
  });
  root = await given;
  content = join(root, 'content');
  await filmedShop(content);
});
afterAll(() => end());

const build = (target: string) => [MAIN, 'build', '--content', content, '--to', target, '--footage', 'uncut'];
/** When a calendar (RFC 5545, 3.8.7.2) and feeds (Atom: RFC 4287, 4.2.15; RSS 2.0) say they were made. */
const MADE_AT = /(?<=^DTSTAMP:)\d{8}T\d{6}Z|(?<=<(?:updated|lastBuildDate)>)[^<]+/gm;
/** A site without what differs from one build to the next: its notes, and when it was made. */
const siteOf = async (folder: string) => {
  const { [MARKER]: marker, '.liftside-footage.json': _notes, ...files } = await contents(folder);
  const timeless = Object.entries(files).map(([name, text]) => [
    name,
    /\.(ics|xml)$/.test(name) ? text.replace(MADE_AT, 'when it was made') : text,
  ]);
  return { ...Object.fromEntries(timeless), whole: String(marker !== undefined) };
};

/** Of each kind of page one, and the film. */
const PAGES = [
  ...['index.html', 'lessons/chain/index.html', 'specs/tarn-420/index.html', 'classes/saturday/index.html'],
  ...['classes/saturday/run-sheet/index.html', 'steps/index.html', '404.html', 'footage/media/chain.mp4'],
];

test('a build killed at any moment leaves the last site as it was, or the new one whole; the next one clears up', async () => {
  const target = join(root, 'site');
  const cwd = join(root, 'empty');
  await mkdir(cwd);
  expect((await child(build(target), { cwd })).exitCode).toBe(0);
  const calm = await siteOf(target);
  expect(Object.keys(calm)).toEqual(expect.arrayContaining(PAGES));
  let changes = await countChanges(build(target), { cwd });
  // What is kept between builds is not kept until its files have lain for some seconds.
  for (let before = 0; before !== changes; ) {
    before = changes;
    changes = await countChanges(build(target), { cwd });
  }
  const places = [0.1, 0.4, 0.7, 0.9].map((share) => Math.round(changes * share));
  // The last ones are the two renames and what follows.
  for (let back = 5; back >= 0; back--) places.push(changes - back);
  let gone = 0;
  for (const place of places) {
    const killed = await child(build(target), { cwd, killAt: { place, half: false } });
    expect([place, killed.signal]).toEqual([place, 'SIGKILL']);
    // Between the two renames the site is beside its place, and comes back with the next build.
    if (existsSync(target)) expect(await siteOf(target)).toEqual(calm);
    else gone++;
  }
  expect(gone).toBeLessThanOrEqual(1);
  expect((await child(build(target), { cwd })).exitCode).toBe(0);
  expect(await siteOf(target)).toEqual(calm);
  expect((await readdir(root)).toSorted()).toEqual(['content', 'empty', 'site']);
  expect(await readdir(cwd)).toEqual([]);
  figures('building', { places: changes, kills: places.length, 'between the renames': gone, torn: 0 });
});

test('of two builds of one site, one is told that the other one is at work', async () => {
  const target = join(root, 'twice');
  const both = await Promise.all([child(build(target)), child(build(target))]);
  const codes = both.map(({ exitCode }) => exitCode).toSorted();
  expect(codes).toEqual([0, 3]);
  expect(both.find(({ exitCode }) => exitCode === 3)?.all).toContain('another Liftside is at work here: a build');
  expect(existsSync(join(target, MARKER))).toBe(true);
  figures('two processes building', { built: 1, told: 1 });
});

test('papers killed while they are printed leave no half paper, and the next one clears up', async () => {
  const file = join(root, 'paper.pdf');
  const print = [MAIN, 'export', 'saturday', '--to', 'pdf-run-sheet', '-o', file, '--content', content];
  const scratch = async () => (await readdir(tmpdir())).filter((name) => /^liftside-papers-/.test(name));
  const before = await scratch();
  let kills = 0;
  for (const wait of [0, 3000, 6000]) {
    const printing = child(print);
    const goesOn = watching(printing);
    while ((await scratch()).length === before.length && goesOn()) await pause(20);
    await pause(wait);
    if (printing.kill('SIGKILL')) kills++;
    await printing;
    const { 'paper.pdf': text } = await contents(root);
    if (text !== undefined) expect(text).toMatch(/^%PDF-[\s\S]*%%EOF\s*$/);
  }
  const whole = await child(print);
  expect([whole.exitCode, whole.all]).toEqual([0, expect.stringContaining('wrote')]);
  expect((await scratch()).filter((name) => !before.includes(name))).toEqual([]);
  figures('printing papers', { kills, 'half papers': 0 });
});

test.skipIf(!mayMount())(
  'a disk that is full or read-only ends a build in words, and the last site stays',
  async () => {
    const place = join(root, 'disk');
    const disk = mountSmallDisk(place, 12_000);
    const target = join(place, 'site');
    try {
      expect((await child(build(target))).exitCode).toBe(0);
      const calm = await siteOf(target);
      await disk.fill();
      const full = await child(build(target));
      expect(full.exitCode).toBe(3);
      expect(full.all).toContain('the disk is full');
      expect(full.all).toContain('nothing that was there has changed');
      expect(full.all).not.toContain('fault in Liftside');
      expect(await siteOf(target)).toEqual(calm);
      await disk.free();
      disk.readOnly(true);
      const closed = await child(build(target));
      expect([closed.exitCode, closed.all]).toEqual([3, expect.stringContaining('the disk is read-only')]);
      disk.readOnly(false);
      expect(await siteOf(target)).toEqual(calm);
      expect(await readdir(place)).toEqual(['site']);
      figures('building on a disk that refuses', { full: 1, 'read-only': 1, torn: 0 });
    } finally {
      disk.unmount();
    }
  },
);

test('with a clock set back or forward, a build comes out the same; set back before a row was compared, it says which, and the last site stays', async () => {
  const target = join(root, 'clocks');
  expect((await child(build(target))).exitCode).toBe(0);
  const pages = async () => Object.keys(await siteOf(target));
  const calm = await pages();
  for (const off of [-86_400, 3 * 365 * 86_400]) {
    const built = await child(build(target), { clock: { off } });
    expect([off, built.exitCode, built.all]).toEqual([off, 0, expect.stringContaining('built')]);
    expect(await pages()).toEqual(calm);
  }
  const site = await siteOf(target);
  const early = await child(build(target), { clock: { off: -20 * 365 * 86_400 } });
  expect([early.exitCode, early.all]).toEqual([
    1,
    expect.stringContaining('was compared on 2026-10-03, a day to come'),
  ]);
  expect(await siteOf(target)).toEqual(site);
  figures('building with a wrong clock', { clocks: 3, refused: 1 });
});

test('the content may change while the site is built: what comes out is whole, and the next build has the change', async () => {
  const target = join(root, 'moving');
  const building = child(build(target));
  const goesOn = watching(building);
  let changes = 0;
  const lesson = join(content, 'lessons/chain.mdx');
  const { 'lessons/chain.mdx': text = '' } = await contents(content);
  while (goesOn()) {
    await writeFile(lesson, `${text}\n\nChanged ${++changes} times.\n`);
    await Promise.race([pause(200), building]);
  }
  const ended = await building;
  expect([ended.exitCode, ended.all]).toEqual([0, expect.stringContaining('built')]);
  await writeFile(lesson, text);
  expect((await child(build(target))).exitCode).toBe(0);
  figures('content changed while building', { changes });
});
