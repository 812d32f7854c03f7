import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, test } from 'vitest';
import { pageProgram } from '../../../src/node/site/page-program.ts';

const scratch = mkdtempSync(join(tmpdir(), 'liftside-program-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

let home = '';
let bundled = 0;
beforeEach(() => {
  home = mkdtempSync(join(scratch, 'home-'));
  mkdirSync(join(home, 'src'));
  writeFileSync(join(home, 'src/page.ts'), 'first');
  bundled = 0;
});

const wishes = (more = {}) => ({ home, base: '/', languages: [], keepable: true, ...more });
const kept = () => join(home, 'node_modules/.cache/liftside-pages');

/** Bundles as the real one does, but in no time: a program of one file, which says how often it was made. */
const bundle: Parameters<typeof pageProgram>[2] = async ({ program, assets, scaffold }, { home }, shipped) => {
  bundled += 1;
  for (const folder of [program, assets, scaffold]) mkdirSync(folder);
  writeFileSync(join(program, 'entry.mjs'), `export const pageMaker = () => 'made ${bundled}';`);
  writeFileSync(join(assets, 'page.js'), String(bundled));
  shipped.see([join(home, 'node_modules/signs/index.js')]);
  return 'entry.mjs';
};
const program = (more = {}) => pageProgram(wishes(more), join(scratch, 'beside'), bundle);

test('a bundle is made once for what it is made from', async () => {
  const first = await program();
  const again = await program();
  expect([bundled, again.sum, again.assets]).toEqual([1, first.sum, first.assets]);
  expect([first.maker(), again.maker()]).toEqual(['made 1', 'made 1']);
  expect(readFileSync(join(again.assets, 'page.js'), 'utf8')).toBe('1');
  expect(again.packages).toEqual([join(home, 'node_modules/signs')]);
  expect(readdirSync(kept())).toEqual([first.sum]);
  expect(existsSync(join(kept(), first.sum, 'scaffold'))).toBe(false);
});

test.each([
  ['the base path', { base: '/shop/' }],
  ['the address', { address: 'https://shop.example' }],
  ['the languages', { languages: ['es'] }],
  ['whether lessons can be kept', { keepable: false }],
])('another one for %s', async (_what, more) => {
  const first = await program();
  const other = await program(more);
  expect([bundled, other.maker()]).toEqual([2, 'made 2']);
  expect(readdirSync(kept()).toSorted()).toEqual([first.sum, other.sum].toSorted());
});

test('another one for another program', async () => {
  await program();
  writeFileSync(join(home, 'src/page.ts'), 'second');
  expect((await program()).maker()).toBe('made 2');
});

test.each([
  ['a file that is gone', (folder: string) => rmSync(join(folder, 'assets/page.js'))],
  ['a file that was cut off', (folder: string) => writeFileSync(join(folder, 'program/entry.mjs'), '')],
  ['notes that are damaged', (folder: string) => writeFileSync(join(folder, 'bundle.json'), '{"entry"')],
])('a bundle with %s is made anew', async (_what, damage) => {
  const { sum } = await program();
  damage(join(kept(), sum));
  const again = await program();
  expect([bundled, again.sum]).toEqual([2, sum]);
  expect(readFileSync(join(again.assets, 'page.js'), 'utf8')).toBe('2');
  expect(readdirSync(kept())).toEqual([sum]);
});

test('two at once leave one', async () => {
  const [one, other] = await Promise.all([program(), program()]);
  expect(one?.assets).toBe(other?.assets);
  expect(readdirSync(kept())).toEqual([one?.sum]);
});

test('where nothing can be written with Liftside, it lies in the scratch folder', async () => {
  writeFileSync(join(home, 'node_modules'), 'a file, where a folder would have to be made');
  const { assets, maker } = await program();
  expect(assets.startsWith(join(scratch, 'beside'))).toBe(true);
  expect(maker()).toBe('made 1');
});

test('one that was not used for a week goes when another is made', async () => {
  const { sum } = await program();
  const long = new Date(Date.now() - 8 * 24 * 3_600_000);
  utimesSync(join(kept(), sum), long, long);
  const { sum: other } = await program({ base: '/shop/' });
  expect(readdirSync(kept())).toEqual([other]);
  // Used again, it stays.
  utimesSync(join(kept(), other), long, long);
  await program({ base: '/shop/' });
  await program({ base: '/third/' });
  expect(readdirSync(kept())).toContain(other);
});
