import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { SOUND_SHOP } from '../../../src/core/check/sample.ts';
import { call } from '../../support/call.ts';
import { sharedOnce, TABLE, twoShops } from './two-shops.ts';

const NUT = `${TABLE}#axle-nut`;
const VALUE = '    nominal: 98\n    plusMinus: 5\n    unit: N·m\n';
const SAYING = '00:06:12.000 --> 00:09:00.000\ntorque it to ninety-eight newton metres';

/** Two shops that share a table, and each has a recording of its own that says its value. */
async function sayingIt() {
  const shops = twoShops();
  const captions = (SOUND_SHOP['media/chain.vtt'] ?? '').replace('00:06:00.000 --> 00:09:00.000\n[working]', SAYING);
  shops.write('takes/media/chain.vtt', captions);
  // A second lesson and recording of the same machine.
  shops.write('takes/media/other.vtt', captions);
  const other = (file: string) => (SOUND_SHOP[file] ?? '').replaceAll('media/chain', 'media/other');
  shops.write('takes/recordings/other.yaml', other('recordings/chain.yaml'));
  shops.write('takes/lessons/other.mdx', other('lessons/chain.mdx').replace('recording: chain', 'recording: other'));
  await sharedOnce(shops);
  return shops;
}

const rules = async (shops: Awaited<ReturnType<typeof sayingIt>>) =>
  JSON.parse((await shops.check()).out).diagnostics.map(({ rule }: { rule: string }) => rule);

test('a corrected value becomes a correction for every recording that says the old one', async () => {
  const shops = await sayingIt();
  expect(await rules(shops)).not.toContain('spoken-value-wrong');
  const history = '    history:\n      - {until: 2026-11-01, nominal: 98, plusMinus: 5, unit: N·m}\n';
  shops.change(`gives/${TABLE}`, VALUE, `${VALUE.replace('98', '120')}${history}`);
  await shops.publish('1.1.0', '--notes', 'by the third edition');
  const { code, said } = await shops.update('--take', NUT, '--by', 'second mechanic');
  expect([code, said]).toEqual([0, expect.stringContaining('by the third edition')]);
  for (const id of ['chain', 'other']) {
    expect(said).toContain(`1 correction written to corrections/${id}.yaml`);
    expect(parse(shops.read(`takes/corrections/${id}.yaml`)).corrections).toEqual([
      {
        ...{ step: 'tighten-the-nut', at: '0:06:12', spec: 'axle-nut', said: 'ninety-eight newton metres' },
        ...{ on: '2026-11-25', by: 'second mechanic', note: 'changed by tarn-values 1.1.0, of Weir Bank Workshop' },
      },
    ]);
  }
  expect((await rules(shops)).filter((rule: string) => rule !== 'footage-missing')).toEqual([]);
});

test('a withdrawn value is shown nowhere, asks nobody who compared it, and is corrected where a recording says it', async () => {
  const shops = await sayingIt();
  shops.change(`gives/${TABLE}`, VALUE, `${VALUE}    withdrawn: {on: 2026-11-20, why: the bolt was changed}\n`);
  expect((await shops.publish('1.1.0')).code).toBe(0);
  expect((await shops.update()).code).toBe(1);
  const taken = await shops.update('--take', NUT);
  expect([taken.code, taken.said.includes('nobody here has compared')]).toEqual([0, false]);
  const [correction] = parse(shops.read('takes/corrections/other.yaml')).corrections;
  expect(correction).toMatchObject({ spec: 'axle-nut', said: 'ninety-eight newton metres' });
  const content = `${shops.cwd}/takes`;
  expect((await call(['corrections'], { content })).out).toContain('nothing said or shown disagrees');
  const told = await rules(shops);
  expect(new Set(told.filter((rule: string) => rule !== 'footage-missing'))).toEqual(new Set(['spec-withdrawn']));
});

test('what a recording says of other values is left to people', async () => {
  const shops = await sayingIt();
  shops.change(`gives/${TABLE}`, 'title: Chain slack', 'title: Slack of the chain');
  shops.change(`takes/media/other.vtt`, 'ninety-eight', 'eighty');
  await shops.publish('1.1.0');
  expect((await shops.update()).said).not.toContain('correction');
});
