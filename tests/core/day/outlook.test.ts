import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import { expect, test } from 'vitest';
import { dayAfter, outlookOf, remainingOf } from '../../../src/core/day/index.ts';
import { leftOf, meanLeft } from '../../../src/core/fit/index.ts';
import { BEGIN, clip, events, NEXT, type Row, sheetOf, talk } from './support.ts';

const one = (id: string, minutes: number | [number, number, number], more = {}) =>
  talk(id, [{ id: 'full', worth: 10, minutes }], more);

// The beta distribution of a three-point estimate by the general-purpose library @stdlib; P(T ≤ e + x | T > e).
test.each([300, 420, 500, 560])('what is left of a block of 4 to 12 minutes after %d s', (elapsed) => {
  const estimate = { least: 240, likely: 420, most: 720 };
  const cdf = (seconds: number) => betaCdf((seconds - 240) / 480, 1 + (4 * 180) / 480, 1 + (4 * 300) / 480);
  const left = leftOf(estimate, elapsed);
  for (const probability of [0.1, 0.5, 0.8, 0.9]) {
    const total = elapsed + left(probability);
    expect((cdf(total) - cdf(elapsed)) / (1 - cdf(elapsed))).toBeCloseTo(probability, 4);
  }
});

test('before its least time a block has all the rest before it; past its estimate it may end at any moment', () => {
  const estimate = { least: 240, likely: 420, most: 720 };
  // Mean (a + 4m + b) / 6: Malcolm, Roseboom, Clark and Fazar, 1959.
  expect(meanLeft(estimate, 100)).toBeCloseTo(440 - 100, 0);
  expect(leftOf(estimate, 800)(0.5)).toBeCloseTo(60 * Math.LN2, 6);
});

test('a class that begins six minutes late is six minutes behind, and has less chance to end in time', () => {
  const sheet = sheetOf([one('a', [8, 10, 14]), one('b', [20, 24, 34]), one('c', [14, 16, 22])], { slot: '1:00' });
  const onTime = outlookOf(sheet, dayAfter(sheet, events([0, BEGIN])), 0);
  const late = outlookOf(sheet, dayAfter(sheet, events([6, BEGIN])), 360);
  expect(onTime.behind).toBeCloseTo(0, 0);
  expect(late.behind).toBeCloseTo(360, 0);
  expect(late.chance).toBeLessThan(onTime.chance - 0.2);
  expect([onTime.off, late.off]).toEqual([undefined, 'late']);
});

test('a class that is over ended when it ended', () => {
  const sheet = sheetOf([one('a', 10), one('b', 10)], { slot: '0:20' });
  const state = dayAfter(sheet, events([0, BEGIN], [11, NEXT], [22, NEXT]));
  expect(outlookOf(sheet, state, 9999)).toMatchObject({ chance: 0, behind: 120, end: { expected: 1320 } });
});

test('what is left of a film is what is left to show, with its talks', () => {
  const film = talk('film', [{ id: 'full', worth: 10, show: { lesson: 'chain' } } as never], { kind: 'screen' });
  const sheet = sheetOf([film, one('b', 10)], {}, { clips: { film: [clip(1, 0, 60, 2), clip(2, 60, 120)] } });
  const left = (...rows: readonly Row[]) => {
    const all = events([0, BEGIN], ...rows);
    return outlookOf(sheet, dayAfter(sheet, all), all.at(-1)?.at ?? 0).left;
  };
  expect(left()).toBe(240);
  expect(left([0.5, { kind: 'pause' }])).toBe(210);
  // Standing still costs what it costs: the rest stays as long as it was.
  expect(left([0.5, { kind: 'pause' }], [3, { kind: 'attendance', count: 8 }])).toBe(210);
  expect(
    left([0.5, { kind: 'pause' }], [3, { kind: 'play' }], [3.5, { kind: 'clip-over' }], [6, { kind: 'play' }]),
  ).toBe(60);
});

test('the time of those who came is reckoned with: nine at two vices take a turn more than eight', () => {
  const hands = talk('hands', [{ id: 'full', worth: 10, stations: { count: 2, group: 4, minutes: 12 } } as never]);
  const sheet = sheetOf([one('a', 5), hands], { attendees: 8 });
  const ends = (count: number) =>
    outlookOf(sheet, dayAfter(sheet, events([0, BEGIN], [0, { kind: 'attendance', count }])), 0).end.expected;
  expect([ends(8), ends(9)]).toEqual([17 * 60, 29 * 60]);
});

test('a slow class is reckoned to stay slow, by half of what half an hour has shown', () => {
  const sheet = sheetOf([one('a', 30), one('b', 20)]);
  const state = dayAfter(sheet, events([0, BEGIN], [45, NEXT]));
  // (30 + 45) / (30 + 30) of twenty minutes.
  expect(outlookOf(sheet, state, 45 * 60).end.expected).toBe(45 * 60 + 1500);
});

test('minutes sat through before count towards the longest sitting', () => {
  const seated = (id: string, minutes: number) => talk(id, [{ id: 'full', worth: 10, minutes, seated: true } as never]);
  const sheet = sheetOf([seated('a', 20), seated('b', 10), one('c', 10)], { limits: { seatedMinutes: 40 } });
  const state = dayAfter(sheet, events([0, BEGIN], [23, NEXT]));
  expect(remainingOf(sheet, state, 25 * 60).plan.limits.seatedBefore).toBe(25 * 60);
});
