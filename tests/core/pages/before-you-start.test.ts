import { expect, test } from 'vitest';
import { beforeYouStart } from '../../../src/core/pages/index.ts';
import { changedFile, smallShop } from '../../support/shop.ts';

const LESSON = `---
title: Chain
recording: chain
machine: tarn-420
takes: "1:45"
---
## Rear wheel
<Uses protective="gloves" />
### Crack the nut
<Uses tool="breaker-bar" /> <Uses tool="torque-wrench" count="2" /> <Uses part="cotter-pin" /> <Uses supply="brake-fluid" />
<Caution>It gives at once.</Caution>
### Draw the axle
<Uses tool="torque-wrench" /> <Uses tool="grinder" /> <Uses part="cotter-pin" count="3" />
<Notice>Spacers go back in their order.</Notice>
<Warning>The wheel falls.</Warning>
`;

test('what a lesson takes: of tools the most at once, of parts the sum, with sizes and what is new each time', () => {
  const { shop, lesson } = smallShop({ 'lessons/chain.mdx': LESSON });
  const { minutes, groups } = beforeYouStart(shop, lesson);
  expect(minutes).toBe(105);
  expect(
    groups.map(({ name, things }) => [
      name,
      things.map(({ count, title, size, newEachTime }) => [count, title, size, newEachTime]),
    ]),
  ).toEqual([
    [
      'Tools',
      [
        [2, 'Torque wrench, large', '40 to 200 N·m', false],
        [1, 'Angle grinder', undefined, false],
        [1, 'Breaker bar', undefined, false],
      ],
    ],
    ['Parts', [[4, 'Cotter pin', undefined, true]]],
    ['Supplies', [[1, 'Brake fluid', undefined, false]]],
    ['To protect you', [[1, 'Gloves', undefined, false]]],
  ]);
});

test('what can hurt comes the worst first: said by steps, and of the tools and supplies that are used', () => {
  const { shop, lesson } = smallShop({ 'lessons/chain.mdx': LESSON });
  expect(beforeYouStart(shop, lesson).hazards.map(({ word, of, step }) => [word, of ?? step?.title])).toEqual([
    ['warning', 'Draw the axle'],
    ['warning', 'Angle grinder'],
    ['caution', 'Crack the nut'],
    ['caution', 'Brake fluid'],
  ]);
});

test('a lesson that takes nothing says nothing', () => {
  const { shop, lesson } = smallShop(changedFile('lessons/chain.mdx', 'title: Chain', 'title: Chain'));
  expect(beforeYouStart(shop, { ...lesson, chapters: [] })).toEqual({ groups: [], hazards: [] });
});
