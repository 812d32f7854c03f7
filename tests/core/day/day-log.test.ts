import { expect, test } from 'vitest';
import { dayAfter, dayFiles, logNow, timedEvents, timeOfLog } from '../../../src/core/day/index.ts';
import { BEGIN, events, NEXT, type Row, sheetOf, talk } from './support.ts';

const START = Date.UTC(2027, 2, 6, 9);
const HOUR = 3600;
const reading = (run: string, steady: number, wall = START) => ({ run, steady, wall });

test('the first event sets the clock: four minutes late the class begins at 4:00, and on another day at 0:00', () => {
  const late = timedEvents({ events: [] }, events([99, BEGIN]), START, reading('a', 500, START + 240_000));
  expect(late.anchor.at).toBe(240);
  expect(late.events[0]?.at).toBe(240);
  const tried = timedEvents({ events: [] }, events([99, BEGIN]), START, reading('a', 500, START + 86_400_000));
  expect([tried.anchor.at, tried.events[0]?.at]).toEqual([0, 0]);
});

test('later events keep their own moment, and the clock goes on by the count that nobody can set', () => {
  const { anchor } = timedEvents({ events: [] }, [], START, reading('a', 500));
  const later = timedEvents({ events: [], anchor }, events([7, NEXT]), START, reading('a', 560, START + HOUR * 1000));
  expect([later.anchor.at, later.events[0]?.at]).toEqual([60, 420]);
  expect(timeOfLog({ events: [], anchor }, reading('a', 530))).toBe(30);
  expect(timeOfLog({ events: [] }, reading('a', 530))).toBeNull();
});

test('a log counts for twelve hours after what was written last, and no longer', () => {
  const log = { events: events([0, BEGIN]), anchor: { ...reading('a', 0), at: 0 } };
  expect(logNow(log, reading('a', 12 * HOUR)).events).toHaveLength(1);
  expect(logNow(log, reading('a', 12 * HOUR + 1)).events).toHaveLength(0);
  expect(logNow(log, reading('b', 0, START + 12 * HOUR * 1000)).events).toHaveLength(1);
  expect(logNow(log, reading('b', 0, START + (12 * HOUR + 1) * 1000)).events).toHaveLength(0);
});

test('a class leaves what it took and its questions, each where the content has it, and nothing before there is any', () => {
  const sheet = sheetOf([
    talk('a', [{ id: 'full', worth: 10, minutes: 5 }]),
    talk('b', [{ id: 'full', worth: 10, minutes: 5 }]),
  ]);
  const after = (...rows: readonly Row[]) =>
    dayFiles(sheet, dayAfter(sheet, events(...rows)), '2027-03-06').map(({ file }) => file);
  expect(after([0, BEGIN])).toEqual([]);
  expect(after([0, BEGIN], [6, NEXT])).toEqual(['classes/test.actual.yaml']);
  expect(after([0, BEGIN], [1, { kind: 'question', words: 'Why?' }])).toEqual(['questions/test.yaml']);
});
