import { describe, expect, test } from 'vitest';
import { fitClass, fitJson, type PlannedClass, timelineOf } from '../../../src/core/fit/index.ts';
import type { ShopClass } from '../../../src/core/model/index.ts';
import { testSolver } from '../../support/plans.ts';

const solver = await testSolver();
type Block = PlannedClass['blocks'][number];
const talk = (id: string, treatments: readonly object[], more: Partial<Block> = {}) =>
  ({ id, title: id.toUpperCase(), kind: 'talk', treatments, ...more }) as unknown as Block;
const fitted = (blocks: readonly Block[], slot: string, more: object = {}) =>
  fitClass(
    {
      ...{ id: 'saturday', title: 'Saturday', date: '2027-03-06', starts: '10:00', slot, file: 'x', blocks, ...more },
    } as unknown as ShopClass,
    () => undefined,
    solver,
  );
// Certain lengths in minutes, so that times are sums and chances 0 or 1.
const must = (id: string, minutes: number) => talk(id, [{ id: 'full', worth: 10, minutes }], { must: true });
const LONG_OR_SHORT = talk(
  'b',
  [
    { id: 'long', title: 'Long form', worth: 20, minutes: 20 },
    { id: 'short', worth: 15, minutes: 10 },
  ],
  { must: true },
);
const EXTRA = talk('c', [{ id: 'full', worth: 5, minutes: 10 }]);

describe('a class that fits', () => {
  const fit = fitted([must('a', 30), LONG_OR_SHORT, EXTRA, talk('d', [{ id: 'full', worth: 1, minutes: 30 }])], '1:05');
  const json = fitJson(fit);

  test('is told by its times in seconds and by the clock', () => {
    expect(json).toMatchObject({
      ...{ class: 'saturday', slotSeconds: 3900, plannedSeconds: 3600, slackSeconds: 300, fits: true },
      ...{ overrunProbability: 0, bufferSeconds: 0, stations: [], estimates: [], unknown: [] },
    });
    expect(json.blocks).toEqual([
      { id: 'a', title: 'A', treatment: 'full', start: 0, end: 1800, starts: '10:00', ends: '10:30' },
      { id: 'b', title: 'B', treatment: 'long', start: 1800, end: 3000, starts: '10:30', ends: '10:50' },
      { id: 'c', title: 'C', treatment: 'full', start: 3000, end: 3600, starts: '10:50', ends: '11:00' },
    ]);
    expect(json.left).toEqual([{ id: 'd', title: 'D', reason: expect.stringMatching(/./) }]);
    expect([json.conflict, json.attendees, json.proof !== undefined]).toEqual([undefined, undefined, true]);
  });

  test('has ways to win time, each minute that costs least first', () => {
    // Five worth for ten minutes each; the longer saving is not there, so both stand as they come.
    expect(json.advice).toEqual([
      { kind: 'shorten', text: 'give "B" as short: saves 10 min', savesSeconds: 600, worthLost: 5, enough: true },
      { kind: 'drop', text: 'leave out "C": saves 10 min', savesSeconds: 600, worthLost: 5, enough: true },
    ]);
  });

  test('has its risk by block, in whole seconds', () => {
    expect(json.risk.latestStart.map(({ id, seconds }) => [id, seconds])).toEqual([
      ['a', 300],
      ['b', 2100],
      ['c', 3300],
    ]);
    expect(json.risk.end).toMatchObject({ p10: 3600, p90: 3600 });
    expect(json.risk.bufferFor90Seconds).toBe(0);
  });
});

test('a class that does not fit names what cannot hold together, and how much it runs over', () => {
  const json = fitJson(fitted([must('a', 40), LONG_OR_SHORT], '0:45'));
  expect(json).toMatchObject({ fits: false, slackSeconds: -300, conflict: { smallest: true } });
  expect(json).not.toHaveProperty('proof');
  expect(json.conflict?.demands.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['slot', 'must']));
  for (const { text } of json.conflict?.demands ?? []) expect(text).toMatch(/\w+ \w+/);
  expect(fitJson(fitted([must('a', 60), EXTRA], '0:45')).left).toEqual([
    { id: 'c', title: 'C', reason: 'left out while the class cannot be fitted at all' },
  ]);
});

test('stations are told with their turns, and who made the last one necessary', () => {
  const hands = talk('vice', [{ id: 'stations', worth: 10, stations: { count: 2, group: 2, minutes: 6 } }], {
    ...{ kind: 'hands-on', must: true },
  });
  const json = fitJson(fitted([hands], '1:00', { attendees: 9 }));
  // Nine in groups of two are five groups: at two stations three turns; eight would do with two.
  expect(json.attendees).toBe(9);
  expect(json.stations).toMatchObject([
    {
      id: 'vice',
      stations: 2,
      groups: [2, 2, 2, 2, 1],
      turns: 3,
      turnSeconds: 360,
      lastTurnFrom: 9,
      lastTurnSeconds: 360,
    },
  ]);
});

test('what blocks took is told to a tenth of a minute, with what is offered', () => {
  const fit = fitted([must('a', 30)], '1:00');
  const offer = {
    block: 'a',
    treatment: 'full',
    took: [1803, 1766],
    offered: { least: 1700, likely: 1800, most: 1900 },
  };
  expect(fitJson(fit, [offer as never]).estimates[0]).toMatchObject({
    ...{ id: 'a', treatment: 'full', tookMinutes: [30.1, 29.4] },
  });
});

describe('the timeline of a class', () => {
  test('has its bars, a mark each quarter of an hour, and says what is free', () => {
    const line = timelineOf(fitted([must('a', 30), must('b', 20)], '1:05'));
    expect(line.bars).toEqual([
      { id: 'a', title: 'A', kind: 'talk', start: 0, end: 1800, lane: 0, label: '10:00 A, 30 min' },
      { id: 'b', title: 'B', kind: 'talk', start: 1800, end: 3000, lane: 0, label: '10:30 B, 20 min' },
    ]);
    expect(line).toMatchObject({ lanes: 1, axisSeconds: 4500, endClock: '11:05', plannedSeconds: 3000 });
    expect(line.ticks.map(({ clock }) => clock)).toEqual(['10:00', '10:15', '10:30', '10:45', '11:00', '11:15']);
    expect(line.text).toBe(
      '2 blocks from 10:00 to 10:50, 15 min free in the slot; 80 % of classes end between 10:50 and 10:50',
    );
  });

  test('full to the end is 0 s free; past it is said so', () => {
    expect(timelineOf(fitted([must('a', 60)], '1:00')).text).toMatch(
      /^1 block from 10:00 to 11:00, 0 s free in the slot/,
    );
    expect(timelineOf(fitted([must('a', 70)], '1:00')).text).toContain(', 10 min past the slot;');
  });

  test.each([
    ['2:00', 15],
    ['2:15', 30],
    ['4:00', 30],
    ['4:15', 60],
  ])('of %s has a mark every %d minutes', (slot, minutes) => {
    expect(timelineOf(fitted([must('a', 30)], slot)).ticks[1]?.at).toBe(minutes * 60);
  });

  test('what runs beside another has a lane of its own', () => {
    const line = timelineOf(
      fitted([must('a', 30), talk('h', [{ id: 'x', worth: 1, minutes: 10 }], { beside: 'a' })], '1:00'),
    );
    expect(line.bars.map(({ id, lane, start }) => [id, lane, start])).toEqual([
      ['a', 0, 0],
      ['h', 1, 0],
    ]);
    expect(line.lanes).toBe(2);
  });
});
