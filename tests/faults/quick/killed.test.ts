import { mkdir, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { placer } from '../support/placing.ts';
import { child, contents, countChanges, figures, inFolder } from '../support/run.ts';
import { saidByAll, saver, threeFiles } from '../support/saving.ts';

// A few of the kills of tests/faults; npm run faults tries every place.

test('three files saved at once are all or none, killed here and there', async () => {
  const changes = await inFolder('saving', async (folder) => {
    await threeFiles(folder);
    return countChanges(saver(folder));
  });
  expect(changes).toBeGreaterThanOrEqual(20);
  const ends: Record<string, number> = { old: 0, new: 0 };
  for (const [share, half] of [
    [0.3, true],
    [0.7, false],
    [1, false],
  ] as const)
    await inFolder('saving', async (folder) => {
      await threeFiles(folder);
      const killed = await child(saver(folder), { killAt: { place: Math.round(changes * share), half } });
      expect(killed.signal).toBe('SIGKILL');
      const word = await saidByAll(folder);
      ends[word] = (ends[word] ?? 0) + 1;
    });
  figures('saving three files (quick)', { kills: 3, ...ends });
  expect(Object.keys(ends).toSorted()).toEqual(['new', 'old']);
});

test('a folder being replaced is the old one or the new one after the next run, killed before each of its last changes', async () => {
  await inFolder('placing', async (folder) => {
    await mkdir(join(folder, 'content'));
    const target = join(folder, 'site');
    const words = (word: string) => placer(target, join(folder, 'content'), word);
    await child(words('old'));
    const changes = await countChanges(words('old'));
    for (const back of [4, 3, 2]) {
      const killed = await child(words('new'), { killAt: { place: changes - back, half: false } });
      expect(killed.signal).toBe('SIGKILL');
      expect((await child(words('old'))).exitCode).toBe(0);
      const { 'index.html': page = '' } = await contents(target);
      expect(page.slice(0, 6)).toBe('oldold');
      expect((await readdir(folder)).toSorted()).toEqual(['content', 'site']);
    }
  });
});
