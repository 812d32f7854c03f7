import { expect, test } from 'vitest';
import { copied, keptIn, sharedTable, updater, versionOf } from '../support/collections.ts';
import { child, countChanges, figures, inFolder } from '../support/run.ts';

test('an update of what shops share is taken or not, killed before and in the middle of every change of the disk', async () => {
  await inFolder('shared', async (prepared) => {
    await sharedTable(prepared);
    const changes = await inFolder('taking', async (folder) => {
      await copied(prepared, folder);
      return countChanges(updater(folder));
    });
    const ends: Record<string, number> = { old: 0, new: 0 };
    let kills = 0;
    for (let place = 1; place <= changes; place++)
      for (const half of [false, true])
        await inFolder('taking', async (folder) => {
          await copied(prepared, folder);
          const killed = await child(updater(folder), { killAt: { place, half } });
          expect([place, half, killed.signal]).toEqual([place, half, 'SIGKILL']);
          kills++;
          const state = await versionOf(folder);
          ends[state] = (ends[state] ?? 0) + 1;
          // The next update goes through, and clears up.
          const next = await child(updater(folder));
          expect([place, half, next.exitCode, next.exitCode === 0 ? '' : next.all]).toEqual([place, half, 0, '']);
          expect([await versionOf(folder), await keptIn(folder)]).toEqual(['new', ['1.1.0']]);
        });
    figures('updating a collection', { places: changes, kills, ...ends, torn: 0 });
    expect(kills).toBeGreaterThanOrEqual(40);
    expect(Object.keys(ends).toSorted()).toEqual(['new', 'old']);
  });
});
