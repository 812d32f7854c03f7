import { mkdir, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { classFolder, inLog, leader, PRESSES, saidKept } from '../support/class-day.ts';
import { killPacking, leftBy } from '../support/packed.ts';
import { PACKED } from '../support/packing.ts';
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

test('what a class was told is kept, is kept: killed here and there, the next start knows it and goes on', async () => {
  await inFolder('class-day', async (folder) => {
    await classFolder(folder);
    const kept = new Set<string>();
    for (const [place, half] of [
      [7, false],
      [19, true],
    ] as const) {
      const killed = await child(leader(folder), { killAt: { place, half } });
      expect(killed.signal).toBe('SIGKILL');
      for (const id of saidKept(killed.stdout)) kept.add(id);
      expect(await inLog(folder)).toEqual(expect.arrayContaining([...kept]));
    }
    // Each look at the wall clock is an hour later: the clock of the class does not go by it.
    const ended = await child(leader(folder), { clock: { off: 0, jump: 3600 } });
    expect(saidKept(ended.stdout)).toHaveLength(PRESSES + 1);
    expect(await inLog(folder)).toEqual(Array.from({ length: PRESSES + 1 }, (_, n) => `e${n}`));
    const log = await readFile(join(folder, '.liftside/day/test.jsonl'), 'utf8');
    const clock = [...log.matchAll(/"anchor":.*"at":([\d.]+)/g)].map(([, at]) => Number(at));
    expect(Math.max(...clock) - Math.min(...clock)).toBeLessThan(600);
    expect((await readFile(join(folder, 'questions/test.yaml'), 'utf8')).match(/words: /g)).toHaveLength(PRESSES);
  });
});

test('a package killed while its archive is written leaves the earlier one whole, and the next run clears up', async () => {
  const { signal, there, beside, again } = await killPacking('chain.zip', true, { bytes: PACKED / 2 });
  expect([signal, there, leftBy('chain.zip', beside)]).toEqual(['SIGKILL', 'old', []]);
  expect(beside.length).toBeGreaterThan(0);
  expect(again).toEqual(['old', 'chain.zip']);
});
