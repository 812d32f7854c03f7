import { z } from 'zod';
import { actualText } from './actual-text.ts';
import { type ClockAnchor, type ClockReading, classTime, firstAnchor, isLongAgo } from './class-clock.ts';
import type { DaySheet } from './day-sheet.ts';
import type { DayState } from './day-state.ts';
import type { DayEvent } from './events.ts';
import { questionsText } from './questions-text.ts';

export const anchorSchema = z.strictObject({ run: z.string(), steady: z.number(), wall: z.number(), at: z.number() });

/** What is written down of a class. */
export interface DayLog {
  readonly events: readonly DayEvent[];
  /** The last reading of the clocks beside the clock of the class; nothing before it has begun. */
  readonly anchor?: ClockAnchor;
}

/** A text that comes of a class, by its path in the content folder. */
export interface DayFile {
  readonly file: string;
  readonly text: string;
}

/**
 * What a class leaves in the content: how long its blocks took, and the questions set aside; what there is nothing of
 * is left out.
 *
 * @param date the day it took place, YYYY-MM-DD
 */
export function dayFiles(sheet: DaySheet, state: DayState, date: string): readonly DayFile[] {
  const { id } = sheet.shopClass;
  return [
    { file: `classes/${id}.actual.yaml`, text: actualText(sheet, state, date) },
    { file: `questions/${id}.yaml`, text: questionsText(sheet, state, date) },
  ].flatMap(({ file, text }) => (text === undefined ? [] : [{ file, text }]));
}

/** What counts of a log now: a class of long ago is another class. */
export function logNow(log: DayLog, now: ClockReading): DayLog {
  return log.anchor && isLongAgo(log.anchor, now) ? { events: [] } : log;
}

/** What the clock of a class shows, s from its planned start; nothing before it has begun. */
export function timeOfLog({ anchor }: DayLog, now: ClockReading): number | null {
  return anchor ? classTime(anchor, now) : null;
}

/**
 * Events as they are written down, with what the clocks show. The first of a class sets its clock, and begins at what
 * it shows.
 *
 * @param startsAt planned, milliseconds since 1970
 */
export function timedEvents(
  { anchor }: DayLog,
  events: readonly DayEvent[],
  startsAt: number,
  now: ClockReading,
): { readonly events: readonly DayEvent[]; readonly anchor: ClockAnchor } {
  if (anchor) return { events, anchor: { ...now, at: classTime(anchor, now) } };
  const first = firstAnchor(startsAt, now);
  return { events: events.map((event) => ({ ...event, at: first.at })), anchor: first };
}
