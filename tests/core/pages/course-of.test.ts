import { expect, test } from 'vitest';
import { SOUND_SHOP } from '../../../src/core/check/index.ts';
import { classInCourse, dayPapers } from '../../../src/core/pages/index.ts';
import { smallShop } from '../../support/shop.ts';

const TEXT = SOUND_SHOP['classes/saturday.yaml'] ?? '';
const part = (title: string, date: string, more = '') =>
  TEXT.replace(/^title: .*$/m, `title: ${title}`).replace(/^date: .*\n/m, `date: ${date}\ncourse: One bike\n${more}`);
const { shop } = smallShop({
  'classes/saturday.yaml': TEXT,
  'classes/brakes.yaml': part('Brakes', '2027-01-09', 'presupposes: [chains]\n'),
  'classes/chains.yaml': part('Chains', '2026-12-12'),
  'classes/oil.yaml': part('Oil', '2027-02-06'),
});
const of = (id: string) => {
  const shopClass = shop.classes.find((each) => each.id === id);
  if (!shopClass) throw new Error(id);
  return { shopClass, seen: classInCourse(shop, shopClass) };
};

test('a course is the classes that name it, in the order of their days', () => {
  const { seen } = of('brakes');
  expect(seen?.course).toMatchObject({ title: 'One bike', part: 2 });
  expect(seen?.course?.parts.map(({ id, here }) => [id, here])).toEqual([
    ['chains', false],
    ['brakes', true],
    ['oil', false],
  ]);
});

test('what a class builds on stands on its papers, with the day', () => {
  const { shopClass, seen } = of('brakes');
  // 2026-12-12 is a Saturday (ISO 8601 calendar).
  expect(seen?.words).toBe('Part 2 of 3 of "One bike". It builds on "Chains" (Saturday, 12 December 2026).');
  expect(dayPapers(shop, shopClass, []).inCourse).toBe(seen?.words);
  expect(of('oil').seen?.words).toBe('Part 3 of 3 of "One bike".');
});

test('a class that stands alone says nothing of it', () => {
  expect(of('saturday').seen).toBe(undefined);
});

test('two classes of one day stand in the order of their hours', () => {
  const at = (starts: string) => part('Brakes', '2027-01-09').replace(/^starts: .*$/m, `starts: "${starts}"`);
  const { shop: day } = smallShop({ 'classes/a.yaml': at('10:00'), 'classes/b.yaml': at('09:30') });
  const [first] = day.classes;
  expect(first && classInCourse(day, first)?.course?.parts.map(({ id }) => id)).toEqual(['b', 'a']);
});
