import {
  cpSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { execa } from 'execa';
import { afterAll, expect, test } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/index.ts';
import { makeOneFile } from '../../../src/node/cli/make-one-file.ts';
import { findOneFile, oneFileFolder, stampsOf } from '../../../src/node/cli/one-file.ts';
import { filesBelow } from '../../../src/node/files/index.ts';

// A copy of the program beside the same packages, so that its sources can be changed. What the program in one file tells
// is held against what its thousand files tell.

const HOME = resolve(import.meta.dirname, '../../..');
const place = mkdtempSync(join(tmpdir(), 'liftside-one-file-'));
const copy = join(place, 'program');
const content = join(place, 'content');
afterAll(() => rmSync(place, { recursive: true, force: true }));
mkdirSync(join(copy, 'node_modules'), { recursive: true });
for (const name of ['src', 'public', 'LICENSE', 'package.json', 'tsconfig.json', 'tsconfig.base.json'])
  cpSync(join(HOME, name), join(copy, name), { recursive: true });
for (const name of readdirSync(join(HOME, 'node_modules')))
  if (name !== '.cache') symlinkSync(join(HOME, 'node_modules', name), join(copy, 'node_modules', name));
for (const [file, text] of Object.entries(SOUND_SHOP)) {
  mkdirSync(join(content, file, '..'), { recursive: true });
  writeFileSync(join(content, file), text.replace('of="axle-nut"', 'of="axel-nut"'));
}

/** What a check from nothing tells. */
async function check() {
  rmSync(join(content, '.liftside'), { recursive: true, force: true });
  const words = [join(copy, 'src/node/cli/liftside.mjs'), 'check', '--json', '--content', content];
  const { exitCode, stdout, stderr } = await execa(process.execPath, words, { reject: false });
  return { exitCode, stdout, stderr };
}

const later = () => Date.now() + 3_600_000;

test('in one file a check tells the same, and it is believed only while no file of the program has changed', async () => {
  const plain = await check();
  expect(plain).toMatchObject({ exitCode: 1, stderr: '' });
  expect(plain.stdout).toContain('spec-unknown');

  expect(await makeOneFile(Date.now(), copy), 'of sources that are being worked on').toBe(false);
  expect(findOneFile(copy)).toBeUndefined();
  expect(await makeOneFile(later(), copy)).toBe(true);
  const made = findOneFile(copy) ?? '';
  expect(made).toContain('/node_modules/.cache/liftside/program-');
  expect(await check()).toEqual(plain);
  const { files }: { files: readonly string[] } = JSON.parse(
    readFileSync(join(oneFileFolder(copy), 'program.json'), 'utf8'),
  );
  for (const end of [
    '/src/node/files/copy-sum.ts',
    '/node_modules/zod/package.json',
    '/node_modules/.package-lock.json',
  ])
    expect(
      files.some((file) => file.endsWith(end)),
      end,
    ).toBe(true);

  const rule = join(copy, 'src/core/check/rules/spec-unknown.ts');
  writeFileSync(rule, readFileSync(rule, 'utf8').replace("severity: 'error'", "severity: 'info'"));
  expect(findOneFile(copy)).toBeUndefined();
  const changed = await check();
  expect(changed.stdout).not.toBe(plain.stdout);
  expect(await makeOneFile(later(), copy)).toBe(true);
  expect(findOneFile(copy)).not.toBe(made);
  expect(await check()).toEqual(changed);

  // An empty file would find nothing wrong.
  writeFileSync(fileURLToPath(findOneFile(copy) ?? ''), '');
  expect(findOneFile(copy)).toBeUndefined();
  expect(await check()).toEqual(changed);
  for (const bad of ['', 'null', '{"files":[]}', '{"entry":"../x.mjs","files":[],"sum":"A"}']) {
    writeFileSync(join(oneFileFolder(copy), 'program.json'), bad);
    expect(findOneFile(copy), bad).toBeUndefined();
  }
});

test('another link to a file of a package changes nothing, one to a source does, as does every writing', () => {
  for (const [folder, stays] of [
    ['node_modules/some', true],
    ['src', false],
  ] as const) {
    const file = join(place, 'links', folder, 'one.js');
    mkdirSync(join(file, '..'), { recursive: true });
    writeFileSync(file, 'one();');
    const before = stampsOf([file]);
    linkSync(file, `${file}.linked`);
    expect(stampsOf([file]).sum === before.sum, folder).toBe(stays);
    const linked = stampsOf([file]);
    writeFileSync(file, 'two();');
    expect(stampsOf([file]).sum, folder).not.toBe(linked.sum);
    const written = stampsOf([file]);
    rmSync(file);
    writeFileSync(file, 'two();');
    expect(stampsOf([file]).sum, folder).not.toBe(written.sum);
  }
});

test('where nothing can be written beside the packages, nothing is made', async () => {
  rmSync(oneFileFolder(copy), { recursive: true });
  writeFileSync(oneFileFolder(copy), '');
  expect(await makeOneFile(later(), copy)).toBe(false);
  expect(findOneFile(copy)).toBeUndefined();
});

test('in one file a build makes the same site', async () => {
  rmSync(oneFileFolder(copy), { recursive: true, force: true });
  const demo = join(place, 'demo');
  cpSync(join(HOME, 'content'), demo, { recursive: true, filter: (path) => !path.includes('.liftside') });
  const site = async (name: string) => {
    const words = [join(copy, 'src/node/cli/liftside.mjs'), 'build', '--content', demo, '--to', join(place, name)];
    await execa(process.execPath, words);
    // Which say when they were made, and where on the disk it lies.
    const files = filesBelow(join(place, name)).filter((file) => !/\.(?:xml|ics)$|^\.liftside-/.test(file));
    return new Map(files.map((file) => [file, readFileSync(join(place, name, file), 'base64')]));
  };
  const plain = await site('plain');
  expect(findOneFile(copy)).toBeUndefined();
  expect(await makeOneFile(later(), copy)).toBe(true);
  expect(await site('together')).toEqual(plain);
  expect(findOneFile(copy)).toBeDefined();
  expect(plain.has('lessons/chain/index.html')).toBe(true);
});
