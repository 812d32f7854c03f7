import { appendFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, expect, onTestFinished, test } from 'vitest';
import {
  type Counted,
  countRecords,
  lessonRecords,
  SearchWords,
  searchedBy,
  searchedStep,
} from '../../../src/core/search/index.ts';
import { KeptCounts } from '../../../src/node/site/kept-counts.ts';
import { PageSums } from '../../../src/node/site/page-sums.ts';
import { siteSourceOf } from '../../../src/node/site/site-source.ts';
import { writeLargeLibrary } from '../../support/large-library.ts';

let content = '';
beforeEach(async () => {
  content = mkdtempSync(join(tmpdir(), 'liftside-counts-'));
  onTestFinished(() => rmSync(content, { recursive: true, force: true }));
  mkdirSync(join(content, 'corrections'));
  await writeLargeLibrary(content, 4);
});

/** What a build asks for, and which lessons it had to count. */
async function counted(program = 'one program'): Promise<{ all: readonly Counted[]; anew: readonly string[] }> {
  const { shop, ...site } = await siteSourceOf(content, () => new Date('2026-11-25')).open();
  const counts = await KeptCounts.open(content, new PageSums({ ...site, shop }, program));
  const { language, synonyms, skip } = searchedBy(shop);
  const compared = new SearchWords(language, synonyms, skip);
  const anew: string[] = [];
  const all = shop.lessons.map((lesson) =>
    counts.of(language, lesson.id, () => {
      anew.push(lesson.id);
      return countRecords(lessonRecords(shop, lesson).map(searchedStep), compared);
    }),
  );
  counts.close();
  return { all, anew };
}

const kept = () => join(content, '.liftside/search.kept');

test('after an edit of a lesson only that is counted anew, and the rest is as it was', async () => {
  const first = await counted();
  expect(first.anew).toHaveLength(4);
  expect(await counted()).toEqual({ all: first.all, anew: [] });
  appendFileSync(join(content, 'lessons/chain-2.mdx'), '\nMind the gudgeon.\n');
  const edited = await counted();
  expect(edited.anew).toEqual(['chain-2']);
  expect(edited.all.flatMap(({ written }) => written)).toContain('gudgeon');
  expect(first.all.flatMap(({ written }) => written)).not.toContain('gudgeon');
});

test('all is counted anew after an edit of the words of the trade, and for another program', async () => {
  await counted();
  appendFileSync(join(content, 'words.yaml'), '\n# one more line\n');
  expect((await counted()).anew).toHaveLength(4);
  expect((await counted('another')).anew).toHaveLength(4);
});

test('what is damaged, forged or gone is not believed', async () => {
  const { all } = await counted();
  const sound = readFileSync(kept(), 'latin1');
  for (const bad of [sound.replace('chain', 'chaim'), sound.slice(sound.indexOf('\n') + 1), sound.slice(0, 900), '']) {
    writeFileSync(kept(), bad, 'latin1');
    const again = await counted();
    expect(again.anew).toHaveLength(4);
    expect(again.all).toEqual(all);
    expect((await counted()).anew).toEqual([]);
  }
  rmSync(kept());
  expect((await counted()).anew).toHaveLength(4);
});
