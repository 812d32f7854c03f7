import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { call } from '../../support/call.ts';

const DEMO = resolve(import.meta.dirname, '../../../content');
let cwd = '';
beforeEach(async () => {
  cwd = await mkdtemp(join(tmpdir(), 'liftside-import-day-'));
  await cp(DEMO, join(cwd, 'content'), {
    recursive: true,
    filter: (path) => !/\.(mp4|liftside)$|\.liftside/.test(path),
  });
});
afterEach(() => rm(cwd, { recursive: true, force: true }));

const TOOK = `date: 2027-03-06
attendees: 9
blocks:
  - id: welcome
    minutes: 5
`;
const ASKED = `date: 2027-03-06
questions:
  - words: Why not by the marks?
`;

async function bring(text: string, ...more: string[]) {
  await writeFile(join(cwd, 'saved.yaml'), text);
  return call(['import', 'saved.yaml', '--into', 'chain-saturday', ...more], { content: join(cwd, 'content') });
}
const written = (file: string) => readFile(join(cwd, 'content', file), 'utf8').catch(() => undefined);

test('what a class took and its questions go where the local site writes them, told by what they say', async () => {
  const dry = await bring(TOOK, '--dry-run');
  expect([dry.code, await written('classes/chain-saturday.actual.yaml')]).toEqual([0, undefined]);
  expect(dry.out).toContain('+    minutes: 5');
  expect((await bring(TOOK)).code).toBe(0);
  expect((await bring(ASKED)).code).toBe(0);
  expect(await written('classes/chain-saturday.actual.yaml')).toBe(TOOK);
  expect(await written('questions/chain-saturday.yaml')).toBe(ASKED);
  expect((await bring(TOOK)).said).toContain('nothing changes');
});

test('what is there already stays, until its place is asked for', async () => {
  await bring(TOOK);
  const other = TOOK.replace('9', '11');
  const refused = await bring(other);
  expect([refused.code, refused.said]).toEqual([1, expect.stringContaining('--replace puts saved.yaml in its place')]);
  expect(await written('classes/chain-saturday.actual.yaml')).toBe(TOOK);
  expect((await bring(other, '--replace')).code).toBe(0);
  expect(await written('classes/chain-saturday.actual.yaml')).toBe(other);
});

test('a file with errors is told with its place and written nowhere', async () => {
  const wrong = await bring(TOOK.replace('minutes: 5', 'minutes: soon'));
  expect([wrong.code, wrong.said]).toEqual([1, expect.stringContaining('saved.yaml:5:14')]);
  expect((await bring('title: something else')).code).toBe(1);
  expect((await bring('{')).code).toBe(1);
  expect(await written('classes/chain-saturday.actual.yaml')).toBeUndefined();
});
