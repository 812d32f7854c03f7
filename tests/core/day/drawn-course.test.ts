import { expect, test } from 'vitest';
import { drawCourse, leadCourse } from '../../../src/core/day/index.ts';
import { clip, sheetOf, talk } from './support.ts';

const minutes = (id: string, count: number, more = {}) => talk(id, [{ id: 'full', worth: 10, minutes: count }], more);
// Five minutes of film with four of talk behind it, between blocks whose length is certain.
const film = talk('film', [{ id: 'film', worth: 10, show: { lesson: 'chain' } } as never], { kind: 'screen' });
const SHEET = sheetOf(
  [minutes('a', 10), film, minutes('c', 5, { between: ['11:00', '11:30'] }), minutes('out', 5)],
  { slot: '2:00' },
  { left: ['out'], clips: { film: [clip(1, 0, 300, 4)] } },
);
const COURSES = Array.from({ length: 40 }, (_, i) => drawCourse(SHEET, i * 1_000_003));
const spread = (of: (course: (typeof COURSES)[number]) => number) => {
  const values = COURSES.map(of);
  return [Math.min(...values), Math.max(...values)] as const;
};

test('a class begins up to ten minutes late', () => {
  const [least, most] = spread(({ late }) => late);
  expect(least).toBeGreaterThanOrEqual(0);
  expect(most).toBeLessThanOrEqual(600);
  expect(most).toBeGreaterThan(240);
});

test('a block takes up to a fifth longer than estimated, all blocks of a class alike', () => {
  const [least, most] = spread((course) => course.took('a', 'full'));
  expect(least).toBeGreaterThanOrEqual(600);
  expect(least).toBeLessThan(625);
  expect(most).toBeLessThanOrEqual(720);
  expect(most).toBeGreaterThan(695);
  for (const course of COURSES) expect(course.took('c', 'full')).toBeCloseTo(course.took('a', 'full') / 2, 6);
});

test('film runs as long as it runs; the talk behind it up to twice as long', () => {
  const [least, most] = spread((course) => course.took('film', 'film'));
  expect(least).toBeGreaterThanOrEqual(300 + 240);
  expect(least).toBeLessThan(300 + 260);
  expect(most).toBeLessThanOrEqual(300 + 480);
  expect(most).toBeGreaterThan(300 + 460);
});

test('what is not in the class takes no time', () => {
  const [course] = COURSES;
  expect([course?.took('nothing', 'full'), course?.took('a', 'other')]).toEqual([0, 0]);
});

test('led by the paper, block follows block, and one that is held until an hour begins no sooner', () => {
  const course = drawCourse(SHEET, 2);
  const { state, end, taken } = leadCourse(SHEET, course);
  const filmed = course.late + course.took('a', 'full');
  expect(state.times).toEqual({
    a: { start: course.late, end: filmed },
    film: { start: filmed, end: 3600 },
    c: { start: 3600, end },
  });
  expect(end).toBeCloseTo(3600 + course.took('c', 'full'), 6);
  expect([state.phase, taken]).toEqual(['over', []]);
});
