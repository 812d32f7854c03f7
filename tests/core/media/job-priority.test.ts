import { expect, test } from 'vitest';
import { jobPriority } from '../../../src/core/media/index.ts';

type Shop = Parameters<typeof jobPriority>[0];

/** A class that shows a lesson, or is about it. */
const held = (date: string, lesson: string, how: 'show' | 'about' = 'show') => ({
  date,
  blocks: [how === 'show' ? { treatments: [{ show: { lesson } }] } : { about: { lesson }, treatments: [] }],
});
const shop = (...classes: ReturnType<typeof held>[]) =>
  ({
    lessons: [
      { id: 'chain', recording: 'one' },
      { id: 'brakes', recording: 'two' },
    ],
    classes,
  }) as unknown as Shop;

// 2020 is a leap year: 366 days lie between the first days of 2020 and 2021.
test.each([
  ['the first class that shows it', shop(held('2021-01-03', 'chain'), held('2021-01-01', 'chain')), 366],
  ['a class today', shop(held('2020-12-31', 'chain')), 365],
  ['a class that is over', shop(held('2020-12-30', 'chain')), 2_000_000],
  ['a class about it', shop(held('2021-01-01', 'chain', 'about')), 366],
  ['a class of another lesson', shop(held('2021-01-01', 'brakes')), 2_000_000],
])('%s decides how urgent a recording is', (_, which, priority) => {
  expect(jobPriority(which, 'one', '2020-12-31')).toBe(priority);
});
