import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sweep } from '../../../src/node/files/index.ts';
import { child, countChanges, figures, inFolder } from '../support/run.ts';
import { FILES, saidByAll, saver, threeFiles } from '../support/saving.ts';

test('three files saved at once are all or none, killed before and in the middle of every change of the disk', async () => {
  const changes = await inFolder('saving', async (folder) => {
    await threeFiles(folder);
    return countChanges(saver(folder));
  });
  const ends: Record<string, number> = { old: 0, new: 0 };
  let kills = 0;
  for (let place = 1; place <= changes; place++)
    for (const half of [false, true])
      await inFolder('saving', async (folder) => {
        await threeFiles(folder);
        const killed = await child(saver(folder), { killAt: { place, half } });
        expect([place, half, killed.signal]).toEqual([place, half, 'SIGKILL']);
        kills++;
        const word = await saidByAll(folder);
        ends[word] = (ends[word] ?? 0) + 1;
        await sweep(folder);
        for (const file of FILES) expect(await readdir(join(folder, file, '..'))).toEqual([file.split('/')[1]]);
        // The next save goes through.
        const next = await child(saver(folder, 'new'));
        expect(next.stdout).toBe(word === 'old' ? 'saved' : 'changed');
      });
  figures('saving three files', { places: changes, kills, ...ends, torn: 0 });
  expect(kills).toBeGreaterThanOrEqual(40);
  expect(Object.keys(ends).toSorted()).toEqual(['new', 'old']);
});

test('of two processes that save the same three files, one wins and the other one is told', async () => {
  const outcomes: Record<string, number> = {};
  for (let n = 0; n < 10; n++)
    await inFolder('saving', async (folder) => {
      await threeFiles(folder);
      const [a, b] = await Promise.all([child(saver(folder, 'left')), child(saver(folder, 'right'))]);
      const outcome = [a.stdout, b.stdout].toSorted().join(' and ');
      outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
      expect(await saidByAll(folder)).toBe(a.stdout === 'saved' ? 'left' : 'right');
    });
  figures('two processes saving', outcomes);
  expect(Object.keys(outcomes)).toEqual(['changed and saved']);
});

// The clock of a shop's old machine is often wrong, and jumps when it finds the network.
test.each([
  ['56 years back', -56 * 365 * 86_400, 0],
  ['20 years forward', 20 * 365 * 86_400, 0],
  ['a day back with each look at it', 0, -86_400],
  ['a day forward with each look at it', 0, 86_400],
])('with a clock set %s, saving, killing and ending the save go on as ever', async (_, off, jump) => {
  await inFolder('clock', async (folder) => {
    await threeFiles(folder);
    expect((await child(saver(folder), { clock: { off, jump } })).stdout).toBe('saved');
    expect(await saidByAll(folder)).toBe('new');
  });
  await inFolder('clock', async (folder) => {
    await threeFiles(folder);
    const clock = { off, jump };
    const changes = await countChanges(saver(folder), { clock });
    await threeFiles(folder);
    expect((await child(saver(folder), { clock, killAt: { place: changes - 2, half: false } })).signal).toBe('SIGKILL');
    expect(await saidByAll(folder)).toBe('new');
  });
});
