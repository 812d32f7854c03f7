import { expect, test } from 'vitest';
import { offeredMinutes, withOffers } from '../../../../src/core/fit/index.ts';
import { mean } from '../../../../src/core/fit/plan/estimate.ts';
import { disagrees, offersFor, shrinkEstimate } from '../../../../src/core/fit/plan/learn.ts';
import { readShop } from '../../../../src/core/read/index.ts';

const saturday = (date: string) => `title: Chain
date: ${date}
starts: "10:00"
slot: "2:00"
attendees: 12
blocks:
  - id: welcome
    title: Welcome
    kind: welcome
    treatments: [{id: talk, worth: 1, minutes: [4, 5, 8]}]
  - id: rivet
    title: Rivet
    kind: hands-on
    treatments: [{id: stations, worth: 1, stations: {count: 2, group: 3, minutes: 10, change: 2}}]
`;
const shop = readShop(
  new Map([
    ['shop.yaml', 'name: Garage\n'],
    ['classes/first.yaml', saturday('2026-12-05')],
    ['classes/second.yaml', saturday('2027-01-09')],
    [
      'classes/first.actual.yaml',
      'date: 2026-12-05\nattendees: 17\nblocks:\n  - {id: welcome, starts: "10:00", ends: "10:09"}\n  - {id: rivet, minutes: 40}\n',
    ],
  ]),
  () => ({ state: 'missing' }),
);
const [first, second] = shop.shop.classes;

test('what a class took is read, and offered to the next class only', () => {
  expect(shop.diagnostics).toEqual([]);
  expect(offersFor(first!, shop.shop)).toEqual([]);
  const [welcome, rivet] = offersFor(second!, shop.shop);
  expect(welcome?.took).toEqual([9 * 60]);
  // 17 attendees at 2 stations of 3 are 3 rounds with 2 changes of 2 minutes: (40 - 4) / 3 = 12 minutes a round.
  expect(rivet?.took).toEqual([12 * 60]);
});

test('one class moves an estimate by a fifth of the difference, many carry it', () => {
  const written = { least: 240, likely: 300, most: 480 };
  const one = shrinkEstimate(written, [540]);
  expect(mean(one)).toBeCloseTo(mean(written) + (540 - mean(written)) / 5, 6);
  expect(one.most).toBe(540);
  const many = shrinkEstimate(
    written,
    Array.from({ length: 400 }, () => 450),
  );
  expect(mean(many)).toBeCloseTo(450, -1);
});

test('offered minutes are ready to be written, and can be tried', () => {
  const offers = offersFor(second!, shop.shop);
  const minutes = offers.map(offeredMinutes);
  for (const [least, likely, most] of minutes) {
    expect(least).toBeLessThanOrEqual(likely);
    expect(likely).toBeLessThanOrEqual(most);
  }
  const tried = withOffers(second!, offers);
  expect(tried.blocks[0]?.treatments[0]?.minutes).toEqual(minutes[0]);
  expect(tried.blocks[1]?.treatments[0]?.stations?.minutes).toEqual(minutes[1]);
});

test('a small difference is no disagreement, a large one is', () => {
  const written = { least: 240, likely: 300, most: 480 };
  expect(disagrees(written, [330])).toBe(false);
  expect(disagrees(written, [840])).toBe(true);
  expect(disagrees({ least: 600, likely: 600, most: 600 }, [655])).toBe(false);
  expect(disagrees({ least: 600, likely: 600, most: 600 }, [700])).toBe(true);
});
