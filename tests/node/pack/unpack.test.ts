import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/sample.ts';
import { manifestText } from '../../../src/core/pack/index.ts';
import { writeZip } from '../../../src/node/pack/index.ts';
import { call } from '../../support/call.ts';

const MANIFEST = manifestText({
  ...{ format: 'liftside-package', version: 1, kind: 'lesson', id: 'chain', title: 'Chain', shop: 'Millrace' },
  ...{ language: 'en', invented: true, opens: 'pages/index.html', lessons: ['chain'], films: [] },
});
const MEDIA = { 'media/chain.mp4': 'film', 'media/chain.vtt': 'WEBVTT\n' };
const SPECS = 'specs/tarn-420.yaml';

/** A package of the sound small shop in a folder of the test's own, and what is put in beside it. */
async function packed(more: Readonly<Record<string, string>> = {}) {
  const cwd = mkdtempSync(join(tmpdir(), 'liftside-unpack-'));
  onTestFinished(() => rmSync(cwd, { recursive: true }));
  const files = Object.entries({ ...SOUND_SHOP, ...MEDIA, ...more });
  const text = (path: string, words: string) => ({
    path,
    bytes: Buffer.byteLength(words),
    from: { bytes: Buffer.from(words) },
  });
  const entries = [text('package.json', MANIFEST), ...files.map(([path, words]) => text(`source/${path}`, words))];
  const wishes = {
    to: join(cwd, 'chain.zip'),
    content: '/nowhere',
    signal: new AbortController().signal,
    wrote: () => {},
  };
  await writeZip(entries, wishes);
  const content = join(cwd, 'shop');
  return {
    ...{ cwd, content },
    unpack: (...flags: string[]) => call(['unpack', 'chain.zip', ...flags], { cwd, content }),
    read: (file: string) => readFileSync(join(content, file), 'utf8'),
    write: (file: string, words: string) => writeFileSync(join(content, file), words),
  };
}

test('into an empty shop: every content file as it was packed, and nothing else', async () => {
  const { unpack, read, content } = await packed({ 'run.js': 'alert(1)', 'media/other.mp4': 'unnamed' });
  expect(await unpack('--dry-run')).toMatchObject({ code: 0, said: expect.stringContaining('nothing was written') });
  expect(existsSync(content)).toBe(false);
  const { code, said } = await unpack();
  expect([
    code,
    said.includes('left in the package: run.js'),
    said.includes('left in the package: media/other.mp4'),
  ]).toEqual([0, true, true]);
  for (const [file, text] of Object.entries({ ...SOUND_SHOP, ...MEDIA }))
    expect([file, read(file)]).toEqual([file, text]);
  expect([existsSync(join(content, 'run.js')), existsSync(join(content, 'media/other.mp4'))]).toEqual([false, false]);
  expect(await unpack()).toMatchObject({ code: 0, said: expect.stringContaining('nothing changes') });
});

test('what differs stops everything until it is decided, by name', async () => {
  const { unpack, read, write } = await packed();
  await unpack();
  const own = (SOUND_SHOP[SPECS] ?? '').replace(/nominal: \d+/, 'nominal: 77');
  write(SPECS, own);
  write('media/chain.vtt', 'WEBVTT\n\nours');
  write('kit.yaml', `${SOUND_SHOP['kit.yaml']}`.replace('  grinder:', '  saw: {title: Saw}\n  grinder:'));
  const stopped = await unpack('--json');
  expect([stopped.code, JSON.parse(stopped.out)]).toEqual([
    1,
    expect.objectContaining({ undecided: expect.arrayContaining(['media/chain.vtt']), written: [] }),
  ]);
  expect(read(SPECS)).toBe(own);
  expect(stopped.said).toMatch(/here {8}nominal: 77\n {2}in package {2}nominal: \d+/);
  const [row] = JSON.parse(stopped.out).undecided.filter((name: string) => name.startsWith(SPECS));
  expect(await unpack('--keep', 'all', '--take', row)).toMatchObject({ code: 0 });
  expect(read(SPECS)).toBe(SOUND_SHOP[SPECS]);
  expect(read('media/chain.vtt')).toBe('WEBVTT\n\nours');
  expect(read('kit.yaml')).toContain('saw');
  expect(await unpack('--take', 'all')).toMatchObject({ code: 0 });
  expect(read('media/chain.vtt')).toBe('WEBVTT\n');
  expect(await unpack('--take', 'nonsense')).toMatchObject({
    code: 2,
    said: expect.stringContaining('"nonsense" differs'),
  });
});

test('a package that is damaged where its content lies is refused, and nothing is written', async () => {
  const { cwd, content, unpack } = await packed();
  const zip = readFileSync(join(cwd, 'chain.zip'));
  // The film is stored as it is.
  const at = zip.indexOf('film', zip.indexOf('media/chain.mp4') + 15);
  zip[at] = 0;
  writeFileSync(join(cwd, 'chain.zip'), zip);
  expect(await unpack('--take', 'all')).toMatchObject({
    code: 1,
    said: expect.stringContaining('source/media/chain.mp4'),
  });
  expect(existsSync(content)).toBe(false);
});

test('when the texts cannot be written, the films put there for them go again', async () => {
  const { content, unpack, write } = await packed();
  mkdirSync(content);
  write('lessons', 'a file in the way');
  expect(await unpack()).toMatchObject({ code: 3 });
  expect([existsSync(join(content, 'media/chain.mp4')), existsSync(join(content, SPECS))]).toEqual([false, false]);
});
