import { expect, test } from 'vitest';
import { fitClass, kitList, partLookup, runSheet } from '../../../src/core/fit/index.ts';
import { draftShop } from '../../../src/node/site/draft-shop.ts';
import { testSolver } from '../../support/plans.ts';
import { smallShop } from '../../support/shop.ts';

const wrong = (id: string, recording = 'r') => `---
title: ${id}
recording: ${recording}
machine: m
---
## Rear wheel

### A step
It takes <Spec of="nothing" />.
`;

test('a run sheet and a kit list need no other lesson’s soundness, and say what is open in what they touch', async () => {
  const sound = smallShop();
  const [taught] = sound.shopClass.blocks.flatMap(({ about, treatments }) => [
    ...(about ? [about.lesson] : []),
    ...treatments.flatMap(({ show }) => show?.lesson ?? []),
  ]);
  const file = `lessons/${taught}.mdx`;
  const { shop, shopClass } = smallShop({ 'lessons/other.mdx': wrong('Other'), [file]: wrong('Taught') });
  const draft = draftShop(
    { shop, diagnostics: [], texts: new Map(), content: '', notes: [], sums: new Map() },
    shopClass,
    '2026-11-27',
  );
  expect(draft.findings.length).toBeGreaterThan(0);
  expect(draft.findings.filter((line) => line.startsWith('lessons/other.mdx'))).toEqual([]);
  expect(draft.findings.filter((line) => !line.startsWith(`${file}:`))).toEqual([]);
  const fit = fitClass(shopClass, partLookup(draft.loaded.shop), await testSolver());
  expect(runSheet(fit, draft.loaded.shop).length).toBeGreaterThan(0);
  expect(kitList(fit, draft.loaded.shop).blocks.length).toBeGreaterThan(0);
});

test('where nothing is wrong nothing is open', () => {
  const { shop, shopClass } = smallShop();
  expect(
    draftShop(
      { shop, diagnostics: [], texts: new Map(), content: '', notes: [], sums: new Map() },
      shopClass,
      '2026-11-27',
    ).findings,
  ).toEqual([]);
});
