import { expect, test } from 'vitest';
import { DAY_PAPERS, dayPapers } from '../../../src/core/pages/index.ts';
import { smallShop } from '../../support/shop.ts';

const { shop, shopClass } = smallShop();
const papers = (more: object = {}, warnings: Parameters<typeof dayPapers>[2] = []) =>
  dayPapers(shop, { ...shopClass, ...more }, warnings);

test('there are as many lines for names as places, and some for those who come without asking', () => {
  expect(papers({ attendees: 12, capacity: 14 }).lines).toBe(17);
  expect(papers({ attendees: 12 }).lines).toBe(15);
  expect(papers().lines).toBe(15);
});

test('the briefing says what always holds, then what the steps of this class warn of, each once', () => {
  const warning = { word: 'danger', text: 'The bike can fall.' } as const;
  const { briefing } = papers({}, [warning, warning, { word: 'warning', text: 'Fluid burns skin.' }]);
  expect(briefing.slice(-2)).toEqual([warning, { word: 'warning', text: 'Fluid burns skin.' }]);
  expect(briefing[0]?.text).toMatch(/service manual/);
});

test('questions come with what was on when they were asked: the step, or else the block', () => {
  const asked = smallShop({
    'questions/saturday.yaml': `date: 2026-12-05
questions:
  - {asked: "10:20", words: Why no grease?, lesson: chain, step: STEP}
  - {words: When next?, block: BLOCK, answered: true, answer: In spring}
`
      .replace('STEP', shop.lessons[0]?.chapters[0]?.steps[0]?.id ?? '')
      .replace('BLOCK', shopClass.blocks[0]?.id ?? ''),
  });
  expect(dayPapers(asked.shop, asked.shopClass, []).questions).toEqual([
    { words: 'Why no grease?', asked: '10:20', about: shop.lessons[0]?.chapters[0]?.steps[0]?.title, answered: false },
    { words: 'When next?', about: shopClass.blocks[0]?.title, answered: true, answer: 'In spring' },
  ]);
  expect(papers().questions).toEqual([]);
});

test('every paper has a page and a name of its own', () => {
  expect(new Set(DAY_PAPERS.map(({ path }) => path)).size).toBe(DAY_PAPERS.length);
  expect(DAY_PAPERS.every(({ path }) => /^[a-z-]+$/.test(path))).toBe(true);
});
