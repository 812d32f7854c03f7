import { execFileSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import type * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test, vi } from 'vitest';
import { check } from '../../../src/core/check/index.ts';
import { loadShop, saveText } from '../../../src/node/files/index.ts';
import { call } from '../../support/call.ts';
import { shopFolder } from '../../support/shop-folder.ts';

// A name that is gone when it is opened, so often, as between the two renames of an editor that saves.
const gone = vi.hoisted(() => ({ file: '', times: 0, opened: 0 }));
vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof fs>();
  return {
    ...real,
    open: (...words: Parameters<typeof real.open>) => {
      if (gone.file !== '' && String(words[0]).endsWith(gone.file)) {
        gone.opened++;
        if (gone.times-- > 0) return Promise.reject(Object.assign(new Error('ENOENT'), { code: 'ENOENT' }));
      }
      return real.open(...words);
    },
  };
});

/** Findings of the sound sample shop beside that it has no footage. */
async function findings(content: string, without = 'footage-missing'): Promise<string[]> {
  const { shop, diagnostics } = await loadShop(content);
  return check(shop, diagnostics, { today: '2026-11-25' })
    .filter(({ rule }) => rule !== without)
    .map(({ rule, place, message }) => `${place.file}:${place.start.line}:${place.start.column} ${rule} ${message}`);
}

const own = (path: string, what: string, reason: string) =>
  `${path}:1:1 file-unreadable ${what} cannot be read: ${reason}`;
const told = (file: string, reason: string) => own(file, file, reason);

/** Work as a user who may not read everything: root may. */
async function asSomebody<T>(work: () => Promise<T>): Promise<T> {
  if (process.getuid?.() !== 0) return work();
  process.seteuid?.(65534);
  try {
    return await work();
  } finally {
    process.seteuid?.(0);
  }
}

test('the sound shop has none of this', async () => {
  expect(await findings(shopFolder())).toEqual([]);
});

test('a pipe where a file should be is told, and nobody waits for it', async () => {
  const content = shopFolder();
  for (const file of ['classes/sunday.yaml', 'lessons/brakes.mdx']) execFileSync('mkfifo', [join(content, file)]);
  expect(await findings(content)).toEqual([
    told('classes/sunday.yaml', 'it is a pipe, not a file'),
    told('lessons/brakes.mdx', 'it is a pipe, not a file'),
  ]);
  // Nor does who saves to its name.
  expect(await saveText(content, { file: 'lessons/brakes.mdx', was: undefined, text: 'x' })).toMatchObject({
    ok: false,
    problem: 'lessons/brakes.mdx could not be written: it is a pipe, not a file',
  });
});

test('links to nowhere, in a circle, out of the folder and into a hidden part are told; links that stay inside are read', async () => {
  const content = shopFolder();
  const outside = mkdtempSync(join(tmpdir(), 'liftside-outside-'));
  onTestFinished(() => rmSync(outside, { recursive: true }));
  writeFileSync(join(outside, 'secret.yaml'), 'title: Not ours\n');
  mkdirSync(join(content, '.git'));
  writeFileSync(join(content, '.git/a.yaml'), 'title: Hidden\n');
  symlinkSync('nowhere.yaml', join(content, 'classes/a.yaml'));
  symlinkSync('b.yaml', join(content, 'classes/b.yaml'));
  symlinkSync(join(outside, 'secret.yaml'), join(content, 'classes/c.yaml'));
  symlinkSync('../.git/a.yaml', join(content, 'classes/d.yaml'));
  symlinkSync(outside, join(content, 'corrections'));
  expect(await findings(content)).toEqual([
    told('classes/a.yaml', 'classes/a.yaml goes through a link that leads nowhere'),
    told('classes/b.yaml', 'classes/b.yaml goes through a link that leads nowhere'),
    told('classes/c.yaml', 'classes/c.yaml goes through a link that leads out'),
    told('classes/d.yaml', 'classes/d.yaml goes through a link into a hidden folder'),
    told('corrections', 'corrections goes through a link that leads out'),
  ]);
  const { texts } = await loadShop(content);
  expect([...texts.values()].join('')).not.toContain('Not ours');
  for (const file of ['classes/a.yaml', 'classes/b.yaml', 'classes/c.yaml', 'classes/d.yaml', 'corrections'])
    rmSync(join(content, file));
  symlinkSync('saturday.yaml', join(content, 'classes/sunday.yaml'));
  expect((await loadShop(content)).shop.classes.map(({ id }) => id).toSorted()).toEqual(['saturday', 'sunday']);
});

test('files and folders that this user may not read are told, one finding each', async () => {
  const content = realpathSync(shopFolder());
  chmodSync(content, 0o755);
  mkdirSync(join(content, 'corrections'));
  chmodSync(join(content, 'corrections'), 0);
  writeFileSync(join(content, 'classes/sunday.yaml'), 'title: Sunday\n', { mode: 0 });
  onTestFinished(() => chmodSync(join(content, 'corrections'), 0o755));
  expect(await asSomebody(() => findings(content))).toEqual([
    told('classes/sunday.yaml', 'this user may not read it'),
    told('corrections', 'this user may not read it'),
  ]);
});

test('what cannot be read is not said to be missing: the shop, the kit, a recording that a lesson names', async () => {
  const content = realpathSync(shopFolder());
  chmodSync(content, 0o755);
  for (const file of ['shop.yaml', 'kit.yaml', 'recordings/chain.yaml']) chmodSync(join(content, file), 0);
  const said = await asSomebody(() => findings(content));
  expect(said.filter((line) => !line.includes('file-unreadable'))).toEqual([]);
  expect(said).toHaveLength(3);
});

test('a file that is gone for a moment, as an editor saves, is read; one that stays away is told', async () => {
  const content = shopFolder();
  Object.assign(gone, { file: 'lessons/chain.mdx', times: 3, opened: 0 });
  expect(await findings(content)).toEqual([]);
  expect(gone.opened).toBe(4);
  Object.assign(gone, { file: 'classes/saturday.yaml', times: Number.MAX_SAFE_INTEGER });
  expect(await findings(content)).toEqual([told('classes/saturday.yaml', 'it was there a moment ago, and is gone')]);
  gone.file = '';
});

test('captions and camera files that are no files are told where they are named', async () => {
  const content = shopFolder();
  writeFileSync(
    join(content, 'recordings/chain.yaml'),
    'title: Chain\nfiles:\n  - file: media/chain.mp4\ncaptions: media/pipe.vtt\n',
  );
  mkdirSync(join(content, 'media/chain.mp4'), { recursive: true });
  execFileSync('mkfifo', [join(content, 'media/pipe.vtt')]);
  const said = (await findings(content, '')).join('\n');
  expect(said).toContain('it is a pipe, not a file');
  expect(said).toContain('it is a folder, not a file');
});

test('a text of more than anybody writes is not read', async () => {
  const content = shopFolder();
  writeFileSync(join(content, 'classes/sunday.yaml'), Buffer.alloc(17_000_000, 'a'));
  expect(await findings(content)).toEqual([
    told('classes/sunday.yaml', 'it has 17 MB, more than the 16 MB that are read'),
  ]);
});

test('check tells it at its place and goes on, with exit 1', async () => {
  const content = shopFolder();
  execFileSync('mkfifo', [join(content, 'classes/sunday.yaml')]);
  const { code, out, said } = await call(['check'], { content });
  expect(code).toBe(1);
  expect(out + said).toMatch(/classes\/sunday\.yaml:1:1\s+error\s+file-unreadable/);
  expect(out + said).toContain('help  put the file itself there, or take this away');
});
