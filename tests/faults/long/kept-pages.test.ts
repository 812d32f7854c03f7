import { execFile } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { filesBelow } from '../../../src/node/files/index.ts';
import { writeLargeLibrary } from '../../support/large-library.ts';
import { LIBRARY_CHANGES } from '../../support/library-changes.ts';

const scratch = mkdtempSync(join(tmpdir(), 'liftside-kept-pages-'));
const content = join(scratch, 'content');
const [first, again, afresh] = ['first', 'again', 'afresh'].map((name) => join(scratch, name)) as [
  string,
  string,
  string,
];

async function build(out: string): Promise<void> {
  const module = pathToFileURL(resolve('src/node/site/index.ts')).href;
  // Feeds say when they were made.
  const program = `import { buildSite } from ${JSON.stringify(module)};
    const [, content, out, home] = process.argv;
    await buildSite({ content, out, home, now: () => new Date('2026-11-25'), footage: 'none' });`;
  // In a process of its own: the runner of tests puts a base path, and that it develops, into its environment.
  const { PATH, HOME } = process.env;
  const call = ['--input-type=module', '--eval', program, content, out, resolve('.')];
  await promisify(execFile)(process.execPath, call, { env: { PATH, HOME } });
}

async function bytesOf(site: string): Promise<Map<string, string>> {
  // But for what is noted of its pages, which names their files on the disk.
  const files = filesBelow(site)
    .filter((name) => name !== '.liftside-pages.json')
    .toSorted();
  return new Map(files.map((file) => [file, readFileSync(join(site, file), 'base64')]));
}

beforeAll(async () => {
  mkdirSync(join(content, 'corrections'), { recursive: true });
  await writeLargeLibrary(content, 8, 1, 'en, es');
  await build(first);
});
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

test.each(LIBRARY_CHANGES)(
  'after a change of $what a build over the last site is one from nothing',
  async ({ file, change }) => {
    const path = join(content, file);
    const was = existsSync(path) ? readFileSync(path, 'utf8') : undefined;
    for (const site of [again, afresh]) rmSync(site, { recursive: true, force: true });
    cpSync(first, again, { recursive: true, preserveTimestamps: true });
    writeFileSync(path, change(was ?? ''));
    await build(again);
    await build(afresh);
    if (was === undefined) rmSync(path);
    else writeFileSync(path, was);
    const [kept, made] = [await bytesOf(again), await bytesOf(afresh)];
    expect([...kept.keys()]).toEqual([...made.keys()]);
    expect([...made].filter(([name, bytes]) => kept.get(name) !== bytes).map(([name]) => name)).toEqual([]);
    // The change is on the site: else nothing was compared.
    expect(await bytesOf(first)).not.toEqual(made);
  },
);

test('a page of the last site that somebody has changed is made anew', async () => {
  rmSync(again, { recursive: true, force: true });
  cpSync(first, again, { recursive: true });
  const page = join(again, 'lessons/chain-0/index.html');
  const was = readFileSync(page, 'utf8');
  writeFileSync(page, was.replace('N·m', 'N'));
  await build(again);
  expect(readFileSync(page, 'utf8')).toBe(was);
});
