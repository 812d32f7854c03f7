import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { execa } from 'execa';
import { afterAll, beforeAll, expect, test } from 'vitest';

// Liftside as a package, installed into an empty folder without what only its tests need. Packages come from npm's cache where
// they are there, else from its registry.

const HOME = resolve(import.meta.dirname, '../../..');
const CONTENT = join(HOME, 'content');
let place = '';

beforeAll(async () => {
  place = await mkdtemp(join(tmpdir(), 'liftside-installed-'));
  const { stdout } = await execa('npm', ['pack', HOME, '--silent'], { cwd: place });
  const install = ['install', '--omit=dev', '--prefer-offline', '--no-audit', '--no-fund', `./${stdout.trim()}`];
  await execa('npm', install, { cwd: place });
});
afterAll(() => rm(place, { recursive: true, force: true }));

const liftside = (...words: string[]) =>
  execa(join(place, 'node_modules/.bin/liftside'), words, {
    cwd: place,
    reject: false,
    // The Node that runs this test, as the first line of the program asks for one.
    env: { PATH: `${dirname(process.execPath)}:${process.env.PATH}` },
  });

test('it checks, fits and builds, and says nothing of how it is made', async () => {
  const checked = await liftside('check', '--content', CONTENT);
  expect(checked).toMatchObject({ exitCode: 0, stderr: '' });
  expect(checked.stdout).toContain('no problems found');
  const fitted = await liftside('fit', 'chain-saturday', '--content', CONTENT);
  expect(fitted).toMatchObject({ exitCode: 0, stderr: '' });
  expect(fitted.stdout).toContain('chance of overrunning');
  const built = await liftside('build', '--to', 'site', '--footage', 'uncut', '--content', CONTENT);
  expect(built.exitCode, built.stderr).toBe(0);
  expect(await readFile(join(place, 'site/lessons/chain/index.html'), 'utf8')).toContain('<lesson-player');
  // What goes out with the pages is named, wherever its package lies.
  const licences = await readFile(join(place, 'site/licences.txt'), 'utf8');
  for (const name of ['video.js', '@fontsource-variable/atkinson-hyperlegible-next', '@orama/stemmers'])
    expect(licences).toContain(`${name} `);
  expect(licences.match(/^liftside /gm) ?? []).toHaveLength(0);
});

test('it makes a shop, and tells what is left to write', async () => {
  expect((await liftside('new', 'shop', 'our-shop')).exitCode).toBe(0);
  const checked = await liftside('check', '--content', 'our-shop');
  expect(checked.exitCode).toBe(1);
  expect(`${checked.stdout}${checked.stderr}`).toContain('FILL IN');
});
