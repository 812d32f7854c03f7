import { mkdir, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { mendFolder } from '../../../src/node/files/index.ts';
import { MARKER } from '../../../src/node/files/made-folder.ts';
import { placer } from '../support/placing.ts';
import { child, contents, countChanges, figures, inFolder } from '../support/run.ts';

const filesOf = (word: string) => [MARKER, 'index.html', `pages/${word}.html`];

test('a folder made anew and one made over are the old one or the new one, killed at every change of the disk', async () => {
  const ends: Record<string, number> = { none: 0, old: 0, new: 0 };
  let kills = 0;
  for (const before of [undefined, 'old'])
    await inFolder('placing', async (folder) => {
      const content = join(folder, 'content');
      const target = join(folder, 'out/site');
      await mkdir(content);
      const words = (word: string) => placer(target, content, word);
      if (before) await child(words(before));
      const changes = await countChanges(words(before ?? 'new'));
      for (let place = 1; place <= changes; place++)
        for (const half of [false, true]) {
          if (before) await child(words(before));
          else await rm(join(folder, 'out'), { recursive: true, force: true });
          const killed = await child(words('new'), { killAt: { place, half } });
          expect([place, half, killed.signal]).toEqual([place, half, 'SIGKILL']);
          kills++;
          await mendFolder(target);
          const found = await contents(target);
          const word = Object.keys(found).length === 0 ? 'none' : (found['index.html'] ?? '').slice(0, 3);
          ends[word] = (ends[word] ?? 0) + 1;
          if (word !== 'none') expect(Object.keys(found).toSorted()).toEqual(filesOf(word).toSorted());
          if (before) expect(word).not.toBe('none');
          const beside = await readdir(join(folder, 'out')).catch(() => []);
          expect(beside.filter((name) => !/^(site|\.site\.lock(-owner\.json)?)$/.test(name))).toEqual([]);
        }
    });
  figures('placing a folder', { kills, ...ends, torn: 0 });
  expect(kills).toBeGreaterThanOrEqual(40);
  for (const end of ['none', 'old', 'new']) expect([end, (ends[end] ?? 0) > 0]).toEqual([end, true]);
});

test('of two processes that make the same folder, each ends whole or is told', async () => {
  const outcomes: Record<string, number> = {};
  for (let n = 0; n < 10; n++)
    await inFolder('placing', async (folder) => {
      await mkdir(join(folder, 'content'));
      const target = join(folder, 'site');
      const both = await Promise.all(
        ['abc', 'xyz'].map((word) => child(placer(target, join(folder, 'content'), word))),
      );
      for (const { exitCode, all } of both)
        if (exitCode !== 0) expect(all).toContain('another Liftside is at work here');
      const outcome = `${both.filter(({ exitCode }) => exitCode === 0).length} of 2 made`;
      outcomes[outcome] = (outcomes[outcome] ?? 0) + 1;
      const found = await contents(target);
      expect(Object.keys(found).toSorted()).toEqual(filesOf((found['index.html'] ?? '').slice(0, 3)).toSorted());
      expect((await readdir(folder)).toSorted()).toEqual(['content', 'site']);
    });
  figures('two processes placing', outcomes);
  expect(outcomes['0 of 2 made']).toBeUndefined();
});
