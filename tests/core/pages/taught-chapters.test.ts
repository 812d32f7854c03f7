import { expect, test } from 'vitest';
import { fitClass, partLookup, whatIf } from '../../../src/core/fit/index.ts';
import { taughtChapters } from '../../../src/core/pages/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';
import { testSolver } from '../../support/plans.ts';
import { done } from '../../support/shop.ts';

const { shop } = await loadShop('content');
const solver = await testSolver();
const taught = (asked: Parameters<typeof whatIf>[1], order?: readonly string[]) => {
  const written = shop.classes.find(({ id }) => id === 'chain-saturday');
  if (!written) throw new Error('the demo has its class');
  const { shopClass } = done(whatIf(written, asked));
  const blocks = order
    ? shopClass.blocks.toSorted((a, b) => order.indexOf(a.id) - order.indexOf(b.id))
    : shopClass.blocks;
  const fit = fitClass({ ...shopClass, blocks, limits: {} }, partLookup(shop), solver);
  return taughtChapters(shop, fit).map(({ chapter, steps }) => [chapter.id, steps.length]);
};

test('papers hold the chapters that the plan gives, with the steps it shows', () => {
  expect(taught({})).toEqual([
    ['look-before-you-loosen', 3],
    ['take-the-rear-wheel-out', 5],
    ['change-the-sprockets', 5],
    ['fit-the-new-chain', 5],
    ['put-it-back-and-set-the-slack', 6],
  ]);
});

test('a block that is left out is on no paper, and a short version is there with its steps alone', () => {
  expect(taught({ without: ['sprockets'], with: ['back=short'] })).toEqual([
    ['look-before-you-loosen', 3],
    ['take-the-rear-wheel-out', 5],
    ['fit-the-new-chain', 5],
    ['put-it-back-and-set-the-slack', 3],
  ]);
});

test('the order is that of the class, not of the lesson', () => {
  const ids = (shop.classes[0]?.blocks ?? []).map(({ id }) => id);
  const order = ids.toSpliced(ids.indexOf('back'), 1).toSpliced(ids.indexOf('sprockets'), 0, 'back');
  expect(taught({}, order).map(([id]) => id)).toEqual([
    'look-before-you-loosen',
    'take-the-rear-wheel-out',
    'put-it-back-and-set-the-slack',
    'change-the-sprockets',
    'fit-the-new-chain',
  ]);
});
