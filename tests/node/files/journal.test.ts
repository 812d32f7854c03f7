import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { loadShop, saveText } from '../../../src/node/files/index.ts';
import { type JournalEntry, openJournal, recover } from '../../../src/node/files/journal.ts';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'liftside-journal-'));
  await mkdir(join(folder, 'lessons'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const FILES = ['lessons/a.mdx', 'lessons/b.mdx', 'lessons/c.mdx'];
const entries: JournalEntry[] = FILES.map((file, n) => ({
  file,
  // The last one is new.
  was: n === 2 ? undefined : Buffer.from(`old ${file}`),
  text: Buffer.from(`new ${file}`),
}));

/** The folder as a save leaves it that was killed after so many of its files had taken their places. */
async function brokenOffAfter(placed: number): Promise<void> {
  for (const [n, { file, was, text }] of entries.entries()) {
    if (n < placed) await writeFile(join(folder, file), text);
    else if (was) await writeFile(join(folder, file), was);
  }
  await openJournal(folder, entries);
}
const texts = () => Promise.all(FILES.map((file) => readFile(join(folder, file), 'utf8').catch(() => undefined)));

test.each([0, 1, 2, 3])('a save of three files killed after %d of them is ended, once', async (placed) => {
  await brokenOffAfter(placed);
  expect(await recover(folder)).toEqual({ finished: FILES, aside: [] });
  expect(await texts()).toEqual(FILES.map((file) => `new ${file}`));
  expect(await recover(folder)).toEqual({ finished: [], aside: [] });
  expect(await readdir(join(folder, '.liftside'))).toEqual(['.gitignore']);
});

test('the next reading of the folder ends it, and says so', async () => {
  await brokenOffAfter(1);
  const { texts: read, notes } = await loadShop(folder);
  expect(FILES.map((file) => read.get(file))).toEqual(FILES.map((file) => `new ${file}`));
  expect(notes).toEqual([`a save that was broken off has been ended: ${FILES.join(', ')}`]);
  expect((await loadShop(folder)).notes).toEqual([]);
});

test('the next save ends it first, and sees what it ended', async () => {
  await brokenOffAfter(1);
  const [, b = ''] = FILES;
  expect(await saveText(folder, { file: b, was: `old ${b}`, text: 'later' })).toMatchObject({ reason: 'changed' });
  expect(await saveText(folder, { file: b, was: `new ${b}`, text: 'later' })).toMatchObject({ ok: true });
  expect(await texts()).toEqual([`new ${FILES[0]}`, 'later', `new ${FILES[2]}`]);
});

test('what somebody has written since stays, and the text of the save is kept beside', async () => {
  await brokenOffAfter(1);
  await writeFile(join(folder, 'lessons/b.mdx'), 'by hand');
  const { finished, aside } = await recover(folder);
  expect(finished).toEqual([FILES[0], FILES[2]]);
  expect(aside.map(({ file }) => file)).toEqual(['lessons/b.mdx']);
  expect(await texts()).toEqual([`new ${FILES[0]}`, 'by hand', `new ${FILES[2]}`]);
  expect(await readFile(join(folder, aside[0]?.kept ?? ''), 'utf8')).toBe('new lessons/b.mdx');
});

test('where nothing was placed yet and somebody has written since, none of it is', async () => {
  await brokenOffAfter(0);
  await writeFile(join(folder, 'lessons/b.mdx'), 'by hand');
  const { finished, aside } = await recover(folder);
  expect([finished, aside.map(({ file }) => file)]).toEqual([[], FILES]);
  expect(await texts()).toEqual([`old ${FILES[0]}`, 'by hand', undefined]);
});

test('a journal that names a file outside writes nothing there', async () => {
  await openJournal(folder, [{ file: '../out.mdx', was: undefined, text: Buffer.from('x') }]);
  expect((await recover(folder)).aside).toHaveLength(1);
  expect(await readdir(join(folder, '..')).then((names) => names.includes('out.mdx'))).toBe(false);
});
