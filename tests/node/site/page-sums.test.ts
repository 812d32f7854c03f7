import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { PageSums } from '../../../src/node/site/page-sums.ts';
import { siteSourceOf } from '../../../src/node/site/site-source.ts';
import { writeLargeLibrary } from '../../support/large-library.ts';
import { LIBRARY_CHANGES } from '../../support/library-changes.ts';

const content = mkdtempSync(join(tmpdir(), 'liftside-sums-'));
afterAll(() => rmSync(content, { recursive: true, force: true }));

const PAGES = [
  'lessons/chain-0/',
  'lessons/front-brake-1/',
  'lessons/chain-2/',
  'es/lessons/chain-2/',
  'steps/rows/0/',
];
const read = (file: string) => readFileSync(join(content, file), 'utf8');

async function sums(now = '2026-11-25', made = 'one program') {
  const site = await siteSourceOf(content, () => new Date(now)).open();
  const of = new PageSums(site, made);
  return new Map(PAGES.map((page) => [page, of.of(page)]));
}

let before: Awaited<ReturnType<typeof sums>>;
beforeAll(async () => {
  mkdirSync(join(content, 'corrections'));
  await writeLargeLibrary(content, 4, 1, 'en, es');
  before = await sums();
});

test('each page about lessons has a sum, of its own and the same each time; other pages are made each time', async () => {
  expect(new Set(before.values()).size).toBe(PAGES.length);
  expect([...before.values()].every((sum) => /^[\da-f]{64}$/.test(sum ?? ''))).toBe(true);
  expect(await sums()).toEqual(before);
  const of = new PageSums(await siteSourceOf(content, () => new Date()).open(), '');
  for (const page of [
    '',
    'steps/',
    'specs/tarn-420/',
    'corrections/',
    'lessons/none/',
    'classes/x/',
    'search/words-61/',
  ])
    expect(of.of(page), page).toBeUndefined();
});

test.each(LIBRARY_CHANGES)('$what is told by the sums of the pages it touches', async ({ file, change, touches }) => {
  const was = (() => {
    try {
      return read(file);
    } catch {
      return undefined;
    }
  })();
  writeFileSync(join(content, file), change(was ?? ''));
  const after = await sums();
  if (was === undefined) rmSync(join(content, file));
  else writeFileSync(join(content, file), was);
  const changed = PAGES.filter((page) => after.get(page) !== before.get(page));
  if (touches === 'all') expect(changed).toEqual(PAGES);
  else expect(changed.toSorted()).toEqual([...touches].toSorted());
});

test('another program, another option or another day is another page', async () => {
  for (const after of [await sums('2026-11-26'), await sums('2026-11-25', 'another')])
    expect(PAGES.filter((page) => after.get(page) === before.get(page))).toEqual([]);
});
