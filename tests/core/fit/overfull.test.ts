import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from 'vitest';
import { demandText, fitClass, fitJson, partLookup, printFit, whatIf } from '../../../src/core/fit/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { testSolver } from '../../support/plans.ts';

const root = resolve(import.meta.dirname, '../../..');
const text = (path: string) => readFileSync(resolve(root, path), 'utf8');
/** The demo with the over-full class laid over it; lengths follow from the edit lists, no footage is needed. */
const { shop } = readShop(
  new Map([
    ...['chain', 'front-brake'].flatMap((id) => [
      [`lessons/${id}.mdx`, text(`content/lessons/${id}.mdx`)] as const,
      [`recordings/${id}.yaml`, text(`content/recordings/${id}.yaml`)] as const,
    ]),
    ['classes/chain-saturday.yaml', text('content/classes/chain-saturday.yaml')],
    ['classes/chain-and-brake.yaml', text('tests/fixtures/overfull/classes/chain-and-brake.yaml')],
  ]),
  () => ({ state: 'missing' }),
);
const fitted = async (id: string) => {
  const shopClass = shop.classes.find((one) => one.id === id);
  if (!shopClass) throw new Error(id);
  return fitClass(shopClass, partLookup(shop), await testSolver());
};

test('the over-full class: the conflict is the slot against the longest must-haves, and the ways out are enough', async () => {
  const fit = await fitted('chain-and-brake');
  expect(fit.fits).toBe(false);
  expect(fit.conflict?.smallest).toBe(true);
  const texts = fit.conflict?.demands.map((demand) => demandText(fit.plan, demand)) ?? [];
  expect(texts[0]).toBe('the class ends by 12:00');
  expect(texts.join('; ')).toContain('"Replace the chain and sprockets" has to be given');
  // Together the demands named take longer than the slot; without the shortest of them they would not.
  const least = fit.conflict?.demands.flatMap((d) =>
    d.kind === 'must' ? [Math.min(...(fit.plan.blocks[d.block]?.treatments.map(({ seconds }) => seconds) ?? []))] : [],
  );
  const sum = least?.reduce((total, seconds) => total + seconds, 0) ?? 0;
  expect(sum).toBeGreaterThan(fit.plan.slotSeconds);
  expect(sum - Math.min(...(least ?? []))).toBeLessThanOrEqual(fit.plan.slotSeconds);
  const json = fitJson(fit);
  expect(json.slackSeconds).toBeLessThan(0);
  expect(json.overrunProbability).toBeGreaterThan(0.99);
  expect(json.advice[0]).toMatchObject({ kind: 'lengthen', enough: true });
  expect(json.advice[0]?.savesSeconds).toBe(json.plannedSeconds + json.bufferSeconds - json.slotSeconds);
});

test('the Saturday class fits, proven, every must-have in it, blocks in order and none over another', async () => {
  const fit = await fitted('chain-saturday');
  const json = fitJson(fit);
  expect(json).toMatchObject({ class: 'chain-saturday', slotSeconds: 7200, fits: true, proof: { gap: 0 } });
  expect(json.slackSeconds).toBe(json.slotSeconds - json.plannedSeconds);
  expect(json.slackSeconds).toBeGreaterThanOrEqual(json.bufferSeconds);
  const musts = fit.plan.blocks.filter(({ must }) => must).map(({ id }) => id);
  expect(json.blocks.map(({ id }) => id)).toEqual(expect.arrayContaining(musts));
  json.blocks.forEach(({ start }, i) => {
    expect(start).toBeGreaterThanOrEqual(json.blocks[i - 1]?.end ?? 0);
  });
  const printed = printFit(fit);
  expect(printed).toContain('fits: ');
  for (const { title, starts } of json.blocks)
    expect(printed).toMatch(new RegExp(`${starts} +\\d+ min +${title.replace(/[.*+?^$()]/g, '\\$&')}`));
});

test('nobody is advised to leave out the safety talk, though without it the class would fit', async () => {
  const saturday = shop.classes.find(({ id }) => id === 'chain-saturday');
  // By the clock "Measure a chain yourself" would begin before the talk and the look that go before it are over.
  const tried = saturday && whatIf(saturday, { without: [], with: [], at: ['measure=10:15'] });
  if (!tried?.ok) throw new Error('the demo has no such block');
  const fit = fitClass(tried.value.shopClass, partLookup(shop), await testSolver());
  const ways = fit.advice.map((way) => way.text);
  expect(ways).toContain('leave out "Welcome, names, who rides what"');
  expect(ways.filter((way) => way.includes('Safety'))).toEqual([]);
});
