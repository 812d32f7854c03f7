import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { OutsideFailure } from '../../../src/node/failure.ts';
import { loadShop, privateFolder, saveText, withContentLock } from '../../../src/node/files/index.ts';
import { Store } from '../../../src/node/media/store.ts';
import { addTaps } from '../../../src/node/server/shoot-log-file.ts';
import { writeEditorHelp } from '../../../src/node/site/editor-help.ts';

// A content folder of somebody else, whose private folder holds links to what is the reader's own.

const OWN = 'my own';
let content = '';
let mine = '';
beforeEach(async () => {
  content = await mkdtemp(join(tmpdir(), 'liftside-strange-'));
  mine = await mkdtemp(join(tmpdir(), 'liftside-mine-'));
  await writeFile(join(mine, 'letters'), OWN);
  await writeFile(join(content, 'shop.yaml'), 'name: Millrace Community Garage\n');
});
afterEach(async () => {
  await rm(content, { recursive: true });
  await rm(mine, { recursive: true });
});

/** Nothing of the reader's own is changed, gone or new. */
async function expectMineUntouched(): Promise<void> {
  expect(await readdir(mine)).toEqual(['letters']);
  expect(await readFile(join(mine, 'letters'), 'utf8')).toBe(OWN);
}

const save = () =>
  saveText(content, { file: 'shop.yaml', was: 'name: Millrace Community Garage\n', text: 'name: X\n' });

test('a private folder that is a link is refused by name, by every writer', async () => {
  await symlink(mine, join(content, '.liftside'));
  await expect(privateFolder(content)).rejects.toThrow(OutsideFailure);
  await expect(privateFolder(content)).rejects.toThrow(/\.liftside is a link/);
  expect((await save()).ok).toBe(false);
  await expect(addTaps(content, [{ id: 'a', lesson: 'pads', at: 1, kind: 'rest' }])).rejects.toThrow(/is a link/);
  await expect(Store.open(content)).rejects.toThrow(/is a link/);
  await expectMineUntouched();
});

test.each(['media', 'tmp'])('so is the folder "%s" in it, before anything in it is cleared away', async (name) => {
  await mkdir(join(content, '.liftside'));
  await symlink(mine, join(content, '.liftside', name));
  await expect(Store.open(content)).rejects.toThrow(new RegExp(`${name} is a link`));
  await expectMineUntouched();
});

test('a file in it that is a link is never written through', async () => {
  const letters = join(mine, 'letters');
  await mkdir(join(content, '.liftside/editor'), { recursive: true });
  await mkdir(join(content, '.liftside/shoot-log'));
  for (const name of ['lock-owner.json', 'saving.json', 'probe.json', 'editor/ids.d.ts', 'shoot-log/pads.jsonl'])
    await symlink(letters, join(content, '.liftside', name));
  await writeEditorHelp(content, (await loadShop(content)).shop);
  await withContentLock(content, 'a test', async () => undefined);
  await save();
  await expect(addTaps(content, [{ id: 'a', lesson: 'pads', at: 1, kind: 'rest' }])).rejects.toThrow();
  await expectMineUntouched();
});
