import { mkdir, mkdtemp, realpath, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { outsideReason } from '../../../src/core/model/index.ts';
import { insideFolder, loadShop } from '../../../src/node/files/index.ts';
import { shopFolder } from '../../support/shop-folder.ts';

let folder = '';
beforeEach(async () => {
  folder = await realpath(await mkdtemp(join(tmpdir(), 'liftside-inside-')));
  await mkdir(join(folder, 'shop/media'), { recursive: true });
  await writeFile(join(folder, 'shop/media/a.mp4'), 'a');
  await writeFile(join(folder, 'secret.mp4'), 'secret');
  await mkdir(join(folder, 'shop/.liftside'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

// Names as an attacker writes them: the variants of CWE-22 to CWE-40 (relative and absolute path traversal) that a
// name with / can carry, and what Windows reads otherwise (Naming Files, Paths, and Namespaces; from memory).
test.each([
  '../secret.mp4',
  'media/../../secret.mp4',
  'media/..',
  '..',
  '.',
  '',
  './media/a.mp4',
  'media/./a.mp4',
  'media//a.mp4',
  'media/',
  '/etc/passwd',
  '//host/share',
  '\\\\host\\share',
  'C:/x.mp4',
  'c:x.mp4',
  'media\\..\\..\\secret.mp4',
  'media/a.mp4:stream',
  'media/a.mp4\0.vtt',
  'media/a\n.mp4',
  '.liftside/probe.json',
  'media/.hidden.mp4',
])('%j is not inside', async (name) => {
  expect(outsideReason(name)).toBeDefined();
  expect(insideFolder(join(folder, 'shop'), name).ok).toBe(false);
});

test.each(['media/a.mp4', 'media/Clip 7 (ä).MP4', 'a..b/c...mp4', 'media/new/not-there-yet.mp4', 'media/%2e%2e'])(
  '%j is inside',
  async (name) => {
    expect(outsideReason(name)).toBeUndefined();
    expect(insideFolder(join(folder, 'shop'), name)).toEqual({ ok: true, path: join(folder, 'shop', name) });
  },
);

test('a link is followed while it stays inside, and refused when it leads out, round, nowhere or to what is hidden', async () => {
  const shop = join(folder, 'shop');
  const link = (target: string, name: string) => symlink(target, join(shop, 'media', name));
  await link('a.mp4', 'same.mp4');
  await link('../media', 'again');
  await link('../../secret.mp4', 'out.mp4');
  await link('..', 'up');
  await link('../..', 'far-up');
  await link('gone.mp4', 'nowhere.mp4');
  await link('round.mp4', 'round.mp4');
  await link('../.liftside', 'hidden');
  await symlink(shop, join(folder, 'by-link'));
  await symlink('/', join(folder, 'shop-evil'));
  const at = (name: string, root = shop) => {
    const inside = insideFolder(root, name);
    return inside.ok ? inside.path : inside.problem;
  };
  expect(at('media/same.mp4')).toBe(join(shop, 'media/a.mp4'));
  expect(at('media/again/again/a.mp4')).toBe(join(shop, 'media/a.mp4'));
  expect(at('media/same.mp4', join(folder, 'by-link'))).toBe(join(shop, 'media/a.mp4'));
  expect(at('media/out.mp4')).toBe('media/out.mp4 goes through a link that leads out');
  expect(at('media/up')).toBe('media/up goes through a link that leads out');
  expect(at('media/far-up/secret.mp4')).toBe('media/far-up/secret.mp4 goes through a link that leads out');
  expect(at('media/nowhere.mp4')).toBe('media/nowhere.mp4 goes through a link that leads nowhere');
  expect(at('media/round.mp4')).toBe('media/round.mp4 goes through a link that leads nowhere');
  expect(at('media/hidden/probe.json')).toBe('media/hidden/probe.json goes through a link into a hidden folder');
  // A neighbour whose name begins alike lies outside all the same.
  await symlink('../../shop-evil', join(shop, 'media/alike'));
  expect(at('media/alike/etc/passwd')).toBe('media/alike/etc/passwd goes through a link that leads out');
});

test('a recording that names a file outside is told at its place, and the file is not looked at', async () => {
  const content = shopFolder({
    files: { 'recordings/chain.yaml': 'title: Chain\nfiles:\n  - file: ../secret.mp4\ncaptions: /etc/passwd\n' },
  });
  const { shop, diagnostics } = await loadShop(content);
  const own = diagnostics.filter(({ place }) => place.file === 'recordings/chain.yaml');
  expect(own.map(({ place: { start }, message }) => `${start.line}:${start.column} ${message}`)).toEqual([
    '3:11 file: "../secret.mp4" cannot be used here: ../secret.mp4 does not lie in the content folder: .. leads out of the folder',
    '4:11 captions: "/etc/passwd" cannot be used here: /etc/passwd does not lie in the content folder: it is counted from the root of a disk, not from the folder',
  ]);
  expect(shop.recordings.flatMap(({ files }) => files)).toEqual([]);
});

test('a camera file that is a link out of the folder is not read, and the reason is told', async () => {
  const content = shopFolder();
  await mkdir(join(content, 'media'), { recursive: true });
  await rm(join(content, 'media/chain.mp4'), { force: true });
  await symlink(join(folder, 'secret.mp4'), join(content, 'media/chain.mp4'));
  const { shop } = await loadShop(content);
  expect(shop.recordings[0]?.files[0]?.facts).toEqual({
    state: 'unreadable',
    reason: 'media/chain.mp4 goes through a link that leads out',
  });
});
