import { expect, test } from 'vitest';
import { lesson, type Sample, SOUND, sampleContent } from '../../../src/core/check/index.ts';
import { classHead, classSheet } from '../../../src/core/pages/class-page.ts';
import { frontPage, siteFrame, stepsPage } from '../../../src/core/pages/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

function shopOf(sample: Sample = SOUND) {
  const { texts, facts } = sampleContent(sample);
  return readShop(texts, facts).shop;
}

test('what stands around a page is plain, and has its defaults', () => {
  const frame = siteFrame(shopOf());
  expect(frame).toMatchObject({ language: 'en', invented: true });
  expect(siteFrame({ ...shopOf(), info: { ...shopOf().info, invented: undefined } }).invented).toBe(false);
  expect(frame.machines.map(({ id, title }) => [id, title])).toEqual([['tarn-420', 'Tarn 420']]);
  expect(JSON.parse(JSON.stringify(frame))).toEqual(frame);
});

test('a class has its day in words, and its end from its start and its slot', () => {
  const shop = shopOf();
  const [shopClass] = shop.classes;
  if (!shopClass) throw new Error('the sample has a class');
  const late = { ...shopClass, date: '2027-03-06', starts: '23:15', slot: '1:50' };
  // 6 March 2027 is a Saturday: ISO 8601 week date 2027-W09-6.
  expect(classHead(shop, late)).toMatchObject({ day: 'Saturday, 6 March 2027', from: '23:15', to: '01:05' });
  expect(classHead({ ...shop, locale: { tag: 'de', messages: {} } }, late).day).toBe('Samstag, 6. März 2027');
  expect(classSheet(shop, late).paper).toBe('A4');
  expect(classHead(shop, { ...late, attendees: 3, capacity: 8 })).toMatchObject({ places: 8, reckonedFor: 3 });
});

test('the front page has the next class first, today included, and those held with the latest first', () => {
  const shop = shopOf();
  const [shopClass] = shop.classes;
  if (!shopClass) throw new Error('the sample has a class');
  const on = (date: string) => ({ ...shopClass, id: date, date });
  const classes = ['2027-01-02', '2026-01-03', '2026-06-06', '2026-12-31'].map(on);
  const page = frontPage({ ...shop, classes }, '2026-12-31', (path) => `/x/${path}`);
  expect(page.coming.map(({ id }) => id)).toEqual(['2026-12-31', '2027-01-02']);
  expect(page.past.map(({ id }) => id)).toEqual(['2026-06-06', '2026-01-03']);
  expect(page.lessons.map(({ id, machine, steps }) => [id, machine, steps])).toEqual([['chain', 'Tarn 420', 2]]);
});

test('a draft stands on no page', () => {
  const draft = shopOf(
    lesson('---\ntitle: Chain\nrecording: chain\nmachine: tarn-420\ndraft: true\n---\n## A\n### B\n'),
  );
  const shop = { ...draft, lessons: draft.lessons.map((each) => ({ ...each, draft: true })) };
  expect(frontPage(shop, '2026-12-31', String).lessons).toEqual([]);
  expect(stepsPage(shop).lessons).toEqual([]);
});

test('the step index lists steps by lesson and chapter, and offers only filters with something to choose', () => {
  const shop = shopOf();
  const page = stepsPage(shop);
  expect(
    page.lessons.map(({ id, chapters }) => [id, chapters.map(({ title, steps }) => [title, steps.length])]),
  ).toEqual([['chain', [['Rear wheel', 2]]]]);
  const [first, second] = page.lessons[0]?.chapters[0]?.steps ?? [];
  expect(first?.from).toBe('Chain · Rear wheel');
  expect(second?.specs.map(({ title }) => title)).toEqual(['Rear axle nut']);
  expect(page.filters.map(({ name }) => name)).toEqual(['machine', 'tool', 'spec']);
  expect(page.filters[0]?.values).toEqual([{ value: 'Tarn 420', machine: 'tarn-420' }]);
});
