import { chmod, lstat, mkdir, mkdtemp, readdir, readFile, rm, stat, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { saveText, saveTexts } from '../../../src/node/files/save.ts';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-save-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

/** What the folder holds besides Liftside's own. */
const names = async () => (await readdir(folder)).filter((name) => name !== '.liftside').toSorted();
const read = (file: string) => readFile(join(folder, file), 'utf8');

test('a file is replaced, keeps its mode, and leaves nothing beside it', async () => {
  await writeFile(join(folder, 'a.yaml'), 'old\n');
  await chmod(join(folder, 'a.yaml'), 0o640);
  expect(await saveText(folder, { file: 'a.yaml', was: 'old\n', text: 'new ä\n' })).toEqual({
    ok: true,
    files: ['a.yaml'],
  });
  expect(await read('a.yaml')).toBe('new ä\n');
  expect((await stat(join(folder, 'a.yaml'))).mode & 0o777).toBe(0o640);
  expect(await names()).toEqual(['a.yaml']);
});

test('a new file comes with its folders', async () => {
  expect((await saveText(folder, { file: 'lessons/brakes.mdx', was: undefined, text: 'x' })).ok).toBe(true);
  expect(await read('lessons/brakes.mdx')).toBe('x');
});

test('a file that changed in the meantime is not written over', async () => {
  await writeFile(join(folder, 'a.yaml'), 'changed elsewhere');
  expect(await saveText(folder, { file: 'a.yaml', was: 'old', text: 'new' })).toMatchObject({
    ok: false,
    problem: 'a.yaml was changed by something else in the meantime',
  });
  expect(await saveText(folder, { file: 'b.yaml', was: 'old', text: 'new' })).toMatchObject({
    ok: false,
    problem: 'b.yaml is gone',
  });
  expect(await saveText(folder, { file: 'a.yaml', was: undefined, text: 'new' })).toMatchObject({
    ok: false,
    problem: 'a.yaml is there already',
  });
  expect(await read('a.yaml')).toBe('changed elsewhere');
});

test('bytes that are no UTF-8 are compared as bytes', async () => {
  const bytes = Buffer.from([0x66, 0xfc, 0x72]);
  await writeFile(join(folder, 'a.srt'), bytes);
  expect((await saveText(folder, { file: 'a.srt', was: bytes.toString('utf8'), text: 'new' })).ok).toBe(false);
  expect((await saveText(folder, { file: 'a.srt', was: bytes, text: 'für' })).ok).toBe(true);
  expect(await read('a.srt')).toBe('für');
});

test('of several files all are saved or none', async () => {
  await writeFile(join(folder, 'a.yaml'), 'old a');
  await writeFile(join(folder, 'b.yaml'), 'changed');
  const result = await saveTexts(folder, [
    { file: 'a.yaml', was: 'old a', text: 'new a' },
    { file: 'new.vtt', was: undefined, text: 'WEBVTT' },
    { file: 'b.yaml', was: 'old b', text: 'new b' },
  ]);
  expect(result).toMatchObject({ ok: false, file: 'b.yaml' });
  expect(await read('a.yaml')).toBe('old a');
  expect(await names()).toEqual(['a.yaml', 'b.yaml']);
});

test('a link stays a link', async () => {
  await mkdir(join(folder, 'real'));
  await writeFile(join(folder, 'real/a.yaml'), 'old');
  await symlink('real/a.yaml', join(folder, 'a.yaml'));
  expect((await saveText(folder, { file: 'a.yaml', was: 'old', text: 'new' })).ok).toBe(true);
  expect((await lstat(join(folder, 'a.yaml'))).isSymbolicLink()).toBe(true);
  expect(await read('real/a.yaml')).toBe('new');
});

test('nothing outside of the folder is written', async () => {
  for (const file of ['../x.yaml', '/tmp/x.yaml', '.', 'a/../../x.yaml'])
    expect(await saveText(folder, { file, was: undefined, text: 'x' })).toMatchObject({
      ok: false,
      problem: expect.stringContaining(`${JSON.stringify(file)} does not lie in the folder: `),
    });
});

test('what the disk refuses is said in words', async () => {
  await mkdir(join(folder, 'a.yaml'));
  const result = await saveText(folder, { file: 'a.yaml/b.yaml/c', was: undefined, text: 'x' });
  expect(result.ok).toBe(true);
  await writeFile(join(folder, 'plain'), '');
  expect(await saveText(folder, { file: 'plain/c', was: undefined, text: 'x' })).toMatchObject({
    ok: false,
    problem: expect.stringMatching(/could not be written: (a part of the path is a file|there is)/),
  });
  expect(await saveText(folder, { file: 'a.yaml', was: 'x', text: 'x' })).toMatchObject({
    ok: false,
    problem: 'a.yaml could not be written: it is a folder, not a file',
  });
});
