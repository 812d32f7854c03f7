import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { CRITICAL, sharedOnce, TABLE, twoShops } from './two-shops.ts';

const NUT = `${TABLE}#axle-nut`;
const rowOf = (text: string, id: string) => parse(text).specs.find((row: { id: string }) => row.id === id);

test('a table goes from one shop to the other, is kept for offline, locked, and taken once', async () => {
  const shops = twoShops();
  const fingerprint = await sharedOnce(shops);
  expect(fingerprint).toMatch(/^([0-9a-f]{4} ){7}[0-9a-f]{4}$/);
  expect(shops.read(`takes/${TABLE}`)).toBe(CRITICAL);
  expect(shops.read(`takes/collections/tarn-values/1.0.0/${TABLE}`)).toBe(CRITICAL);
  const list = shops.read('takes/collections.yaml');
  expect([list.startsWith('# what we take'), parse(list).uses[0].lock]).toEqual([
    true,
    { version: '1.0.0', sum: expect.stringMatching(/^[0-9a-f]{64}$/), signer: fingerprint },
  ]);
  // What an update that was killed at its end leaves goes with the next one.
  shops.write('takes/collections/tarn-values/0.9.0/collection.yaml', 'name: tarn-values\n');
  expect(await shops.update()).toMatchObject({ code: 0, said: expect.stringContaining('nothing new') });
  expect(readdirSync(join(shops.cwd, 'takes/collections/tarn-values'))).toEqual(['1.0.0']);
  expect(await shops.run('takes', 'verify')).toMatchObject({ code: 0, said: 'whole: tarn-values 1.0.0' });
  const { out } = await shops.run('takes', 'list', '--json');
  expect(JSON.parse(out)).toEqual([
    expect.objectContaining({ publisher: 'Weir Bank Workshop', licence: 'CC-BY-4.0', signerKnown: true }),
  ]);
});

test('nothing is fetched but by update: the shop is checked and listed with the place gone', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  shops.uses(shops.read('takes/collections.yaml').split('folder: ../shelf\n')[1], 'folder: ../gone');
  expect((await shops.run('takes', 'list')).code).toBe(0);
  expect((await shops.run('takes', 'verify')).code).toBe(0);
  const { code, said } = await shops.update();
  expect([code, said]).toEqual([3, expect.stringContaining('1.0.0 stays in use')]);
});

test('what only the publisher changed is taken, what only the shop changed is its own and stays', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  shops.change(`takes/${TABLE}`, 'title: Chain slack', 'title: Slack of the chain');
  shops.change(`takes/${TABLE}`, '    max: 40\n', '    max: 38 # ours\n');
  shops.change(`gives/${TABLE}`, 'title: Rear axle nut', 'title: Nut of the rear axle');
  await shops.publish('1.1.0');
  const { code, said } = await shops.update();
  expect([code, said]).toEqual([0, expect.stringContaining(`changed there alone, taken: ${NUT}`)]);
  const text = shops.read(`takes/${TABLE}`);
  expect(rowOf(text, 'axle-nut')).toMatchObject({ title: 'Nut of the rear axle', checkedBy: 'lead mechanic' });
  expect(rowOf(text, 'chain-slack')).toMatchObject({ title: 'Slack of the chain', max: 38 });
  expect(text).toContain('# ours');
  expect(readdirSync(join(shops.cwd, 'takes/collections/tarn-values'))).toEqual(['1.1.0']);
});

const CORRECTED = `    nominal: 105
    plusMinus: 5
    unit: N·m
    history:
      - {until: 2026-11-01, nominal: 98, plusMinus: 5, unit: N·m}
`;
const OLD = '    nominal: 98\n    plusMinus: 5\n    unit: N·m\n';

test('a value is never taken silently: it is told with both texts and places, and a critical one asks who compared it', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  const before = shops.read(`takes/${TABLE}`);
  shops.change(`gives/${TABLE}`, OLD, CORRECTED);
  await shops.publish('1.1.0');
  const stopped = await shops.update();
  expect([stopped.code, shops.read(`takes/${TABLE}`)]).toEqual([1, before]);
  expect(stopped.out).toMatch(/takes\/specs\/tarn-420\.yaml:8:5 {2}error {2}shared-value-changed/);
  expect(stopped.out).toMatch(/axle-nut: here nominal: 98 · there nominal: 105/);
  expect(stopped.out).toContain(`takes/collections/tarn-values/1.1.0/${TABLE}:8:5  as in tarn-values 1.1.0`);
  expect(JSON.parse((await shops.update('--json')).out)[0]).toMatchObject({ state: 'open', open: [NUT] });
  // Until then the check goes on saying so.
  expect((await shops.check()).out).toContain('tarn-values 1.1.0 has been fetched and is not taken; 1.0.0 is in use');

  const taken = await shops.update('--take', NUT);
  expect([taken.code, taken.said]).toEqual([0, expect.stringContaining(`nobody here has compared ${NUT} yet`)]);
  const row = rowOf(shops.read(`takes/${TABLE}`), 'axle-nut');
  expect([row.nominal, row.critical, row.checkedBy, row.checkedOn]).toEqual([105, true, undefined, undefined]);
  const { diagnostics } = JSON.parse((await shops.check()).out);
  expect(diagnostics).toContainEqual(expect.objectContaining({ rule: 'row-incomplete', severity: 'error' }));
});

test('who has compared it says so, and stands in the row with the day', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  shops.change(`gives/${TABLE}`, OLD, CORRECTED);
  await shops.publish('1.1.0');
  expect((await shops.update('--take', 'all', '--by', 'second mechanic')).code).toBe(0);
  expect(rowOf(shops.read(`takes/${TABLE}`), 'axle-nut')).toMatchObject({
    ...{ nominal: 105, checkedBy: 'second mechanic', checkedOn: '2026-11-25' },
  });
});

test('a value that is kept is the shop’s own from then on, and is not asked for again', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  shops.change(`gives/${TABLE}`, OLD, CORRECTED);
  await shops.publish('1.1.0');
  expect((await shops.update('--keep', NUT)).code).toBe(0);
  expect(rowOf(shops.read(`takes/${TABLE}`), 'axle-nut')).toMatchObject({ nominal: 98, checkedBy: 'lead mechanic' });
  shops.change(`gives/${TABLE}`, 'title: Rear axle nut', 'title: Nut of the rear axle');
  await shops.publish('1.2.0');
  expect((await shops.update()).code).toBe(0);
  expect(rowOf(shops.read(`takes/${TABLE}`), 'axle-nut')).toMatchObject({ title: 'Nut of the rear axle', nominal: 98 });
});

test('both have changed one value: it is a choice, and a slip in a choice changes nothing', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  shops.change(`takes/${TABLE}`, 'nominal: 98', 'nominal: 96');
  shops.change(`gives/${TABLE}`, OLD, CORRECTED);
  await shops.publish('1.1.0');
  expect((await shops.update()).out).toContain('axle-nut: here nominal: 96 · there nominal: 105');
  const slip = await shops.update('--take', `${TABLE}#axle-nutt`);
  expect([slip.code, slip.said]).toEqual([2, expect.stringContaining('nothing of the name')]);
  expect(shops.read(`takes/${TABLE}`)).toContain('nominal: 96');
});

test('a publisher cannot change or drop a value without its history', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  shops.change(`gives/${TABLE}`, 'nominal: 98', 'nominal: 105');
  const { code, out } = await shops.publish('1.1.0');
  expect([code, out]).toEqual([
    1,
    expect.stringContaining('axle-nut was published as 98 ± 5 N·m, and 1.1.0 no longer says so'),
  ]);
  expect(existsSync(join(shops.cwd, 'shelf/collection.yaml'))).toBe(true);
  expect(shops.read(`shelf/${TABLE}`)).toBe(CRITICAL);
});

test('what check refuses is not published, nor a version that does not follow', async () => {
  const shops = twoShops();
  await sharedOnce(shops);
  expect(await shops.publish('1.0.0')).toMatchObject({ code: 1, said: expect.stringContaining('does not follow') });
  expect((await shops.publish('1.0.0-rc.1')).code).toBe(1);
  shops.change(`gives/${TABLE}`, 'source: {document: manual, page: 41}', 'source: {document: manaul, page: 41}');
  const { code, said } = await shops.publish('1.1.0');
  expect([code, said]).toEqual([1, expect.stringContaining('nothing was published')]);
});
