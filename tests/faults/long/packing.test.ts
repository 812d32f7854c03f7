import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { killPacking, leftBy, type PackingKill } from '../support/packed.ts';
import { PACKED, packer } from '../support/packing.ts';
import { child, contents, countChanges, figures, inFolder } from '../support/run.ts';
import { leftIn, own, packageAndShop, unpacked, unpacker } from '../support/unpacking.ts';

test.each(['chain-package', 'chain.zip'])(
  'a package killed while %s is written is the earlier one, the new one or none; the next run clears up',
  async (name) => {
    const ends: Record<string, number> = { none: 0, old: 0, new: 0 };
    let kills = 0;
    for (const before of [false, true]) {
      const changes = await inFolder('packing', async (folder) => {
        await mkdir(join(folder, 'content'));
        return countChanges(packer(join(folder, name), join(folder, 'content'), 'old'));
      });
      const moments: PackingKill[] = [
        ...Array.from({ length: changes }, (_, n) => ({ place: n + 1 })),
        ...[1, 0.3, 0.9, 1].map((share, n) => ({ bytes: n === 0 ? 1 : Math.floor(PACKED * share) })),
      ];
      for (const moment of moments) {
        const { signal, there, beside, again } = await killPacking(name, before, moment);
        expect([moment, signal, leftBy(name, beside)]).toEqual([moment, 'SIGKILL', []]);
        expect([moment, there]).not.toEqual([moment, 'damaged']);
        expect([moment, again]).toEqual([moment, ['old', name]]);
        ends[there] = (ends[there] ?? 0) + 1;
        kills++;
      }
    }
    figures(`packing ${name}`, { kills, ...ends, torn: 0 });
    expect(ends.none).toBeGreaterThan(0);
    expect(ends.old).toBeGreaterThan(0);
  },
);

test('unpacking killed before and in the middle of each change of the disk: texts all or none, no film torn; the next run ends it', async () => {
  const ends: Record<string, number> = { old: 0, new: 0 };
  let kills = 0;
  const { after, changes } = await inFolder('unpacking', async (folder) => {
    await packageAndShop(folder);
    const changes = await countChanges(unpacker(folder));
    return { changes, after: own(await contents(join(folder, 'content'))) };
  });
  for (let place = 1; place <= changes; place++)
    for (const half of [false, true])
      await inFolder('unpacking', async (folder) => {
        await packageAndShop(folder);
        const killed = await child(unpacker(folder), { killAt: { place, half } });
        expect([place, half, killed.signal]).toEqual([place, half, 'SIGKILL']);
        const word = await unpacked(folder, after);
        ends[word] = (ends[word] ?? 0) + 1;
        kills++;
        const again = await child(unpacker(folder));
        expect([place, half, again.exitCode, again.exitCode === 0 || again.all]).toEqual([place, half, 0, true]);
        const now = await contents(join(folder, 'content'));
        expect([place, half, own(now)]).toEqual([place, half, after]);
        expect([place, half, leftIn(now)]).toEqual([place, half, []]);
      });
  figures('unpacking', { places: changes, kills, ...ends, torn: 0 });
  expect(kills).toBeGreaterThan(20);
  expect(ends.old).toBeGreaterThan(0);
  expect(ends.new).toBeGreaterThan(0);
});
