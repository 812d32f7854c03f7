import { lstatSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadShop, shopLoader } from '../../../src/node/files/index.ts';
import { START, sampleOf } from '../../support/shop-changes.ts';
import { shopFolder } from '../../support/shop-folder.ts';

// That every change of every kind of file is seen: tests/node/check/check-folder.test.ts.

const keptIn = (content: string) =>
  readdirSync(join(content, '.liftside/read')).map((name) => join(content, '.liftside/read', name));
const bytes = (file: string) => readFileSync(file, 'latin1');
const read = async (content: string) => {
  const { shop, diagnostics } = await shopLoader(content)();
  return { shop, diagnostics };
};

const writtenAt = (content: string) => keptIn(content).map((file) => lstatSync(file, { bigint: true }).mtimeNs);

test('lessons, translations, recordings and tables are kept, and read back as they were', async () => {
  const content = shopFolder(sampleOf(START));
  const { shop, diagnostics } = await loadShop(content);
  expect(await read(content)).toStrictEqual({ shop, diagnostics });
  const long = Object.keys(START.files).filter((file) => /^(lessons|recordings|specs)\//.test(file));
  expect(keptIn(content)).toHaveLength(long.length);
  const before = writtenAt(content);
  expect(await read(content)).toStrictEqual({ shop, diagnostics });
  expect(writtenAt(content)).toEqual(before);
});

test('what is damaged, cut short, forged or of another file is not believed, and is written anew', async () => {
  const content = shopFolder(sampleOf(START));
  const sound = await read(content);
  const good = new Map(keptIn(content).map((file) => [file, bytes(file)]));
  const texts = [...good.values()];
  const lesson = (text: string) => text.includes('lessons/chain.mdx');
  expect(texts.some(lesson)).toBe(true);
  const spoil = [
    (text: string) => text.replace('chain', 'chaim'),
    (text: string) => text.slice(0, text.length / 2),
    (text: string) => text.slice(text.indexOf('\n') + 1),
    (text: string) => `${'A'.repeat(43)}${text.slice(text.indexOf('\n'))}`,
    () => texts.find(lesson) ?? '',
    () => '',
  ];
  for (const each of spoil) {
    for (const [file, text] of good) writeFileSync(file, each(text), 'latin1');
    expect(await read(content)).toStrictEqual(sound);
    // Whole again: the next reading believes it. Byte for byte it need not be the same, for V8 may write a number in two ways.
    expect(keptIn(content)).toEqual([...good.keys()]);
    for (const [file, text] of good) if (each(text) !== text) expect(bytes(file)).not.toBe(each(text));
    const mended = writtenAt(content);
    expect(await read(content)).toStrictEqual(sound);
    expect(writtenAt(content)).toEqual(mended);
  }
});

test('what is kept of a file that is gone goes as well', async () => {
  const content = shopFolder(sampleOf(START));
  await read(content);
  const before = keptIn(content).length;
  rmSync(join(content, 'lessons/brake.es.mdx'));
  await read(content);
  expect(keptIn(content)).toHaveLength(before - 1);
});

test('a link in its place is not written through', async () => {
  const content = shopFolder(sampleOf(START));
  const sound = await read(content);
  const victim = join(content, 'victim.txt');
  writeFileSync(victim, 'of somebody else');
  for (const file of keptIn(content)) {
    rmSync(file);
    symlinkSync(victim, file);
  }
  expect((await read(content)).shop.lessons).toStrictEqual(sound.shop.lessons);
  expect(readFileSync(victim, 'utf8')).toBe('of somebody else');
});

test.each([
  ['sound', ''],
  ['with a fault', 'shows: [{at: "0:99:00", text: a card}]\n'],
])('of a recording %s only what has changed beside it is read anew', async (_what, fault) => {
  const content = shopFolder(sampleOf(START));
  const [recording, captions] = ['recordings/brake.yaml', 'media/brake.vtt'].map((file) => join(content, file)) as [
    string,
    string,
  ];
  writeFileSync(recording, `${readFileSync(recording, 'utf8')}${fault}`);
  const first = await read(content);
  expect(first.diagnostics.some(({ place }) => place.file === 'recordings/brake.yaml' && fault !== '')).toBe(
    fault !== '',
  );
  writeFileSync(captions, readFileSync(captions, 'utf8').replace('89', '98'));
  const { shop, diagnostics } = await loadShop(content);
  expect(await read(content)).toStrictEqual({ shop, diagnostics });
  expect(shop).not.toStrictEqual(first.shop);
});
