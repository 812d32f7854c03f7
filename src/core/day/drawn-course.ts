import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { quantilesOf, type Solver } from '../fit/index.ts';
import { clipsOf, courseOf } from './course.ts';
import type { DaySheet } from './day-sheet.ts';
import { type DayState, dayBefore, dayStep } from './day-state.ts';
import type { DayAct } from './events.ts';
import { outlookOf } from './outlook.ts';
import { waysFrom } from './ways.ts';

/** How a class might go: drawn once, so that two ways of leading it meet the same delays. */
export interface DrawnCourse {
  /** How late it begins, s. */
  readonly late: number;
  /** What a block would take, given in one way, s. */
  took(block: string, treatment: string): number;
}

/**
 * How much a rehearsal's class runs over its estimates: begins late by up to so many seconds, takes up to so much
 * longer than estimated, and talks between clips up to so much longer. Judgements, no source: a rehearsal in which
 * nothing goes wrong teaches nothing.
 */
const LATE_UP_TO = 10 * 60;
const SLOWER_UP_TO = 0.2;
const TALKS_UP_TO = 2;

/** A class with its delays. The same seed draws the same one. */
export function drawCourse(sheet: DaySheet, seed: number, attendance?: number): DrawnCourse {
  const random = xoroshiro128plus(seed);
  const uniform = () => uniformFloat64(random);
  const late = uniform() * uniform() * LATE_UP_TO;
  const pace = 1 + uniform() * SLOWER_UP_TO;
  const { plan } = courseOf(sheet, attendance);
  const ranks = new Map(plan.blocks.map(({ id }) => [id, { rank: uniform(), talk: uniform() }]));
  return {
    late,
    took(block, treatment) {
      const way = plan.blocks.find(({ id }) => id === block)?.treatments.find(({ id }) => id === treatment);
      const { rank, talk } = ranks.get(block) ?? { rank: 0.5, talk: 0.5 };
      if (!way) return 0;
      const shown = clipsOf(sheet, block, treatment).length > 0;
      if (!shown) return quantilesOf(way.estimate)(rank) * pace;
      return way.screenSeconds + (way.estimate.likely - way.screenSeconds) * (1 + talk * (TALKS_UP_TO - 1));
    },
  };
}

/** A class that was led to its end. */
export interface LedCourse {
  readonly state: DayState;
  /** When it ended, s from its planned start. */
  readonly end: number;
  /** Ways out that were taken, in words. */
  readonly taken: readonly string[];
}

/**
 * Leads a drawn class to its end, block by block, on the same events and the same advice as the day itself.
 *
 * @param solver for advice: where the class is late, the best way out that asks for nothing is taken; none: by the
 * paper alone
 */
export function leadCourse(sheet: DaySheet, course: DrawnCourse, solver?: Solver): LedCourse {
  let state = dayBefore(sheet);
  let at = course.late;
  const taken: string[] = [];
  let count = 0;
  const happen = (act: DayAct) => {
    state = dayStep(sheet, state, { ...act, id: `drawn-${++count}`, at });
  };
  const { plan } = courseOf(sheet);
  happen({ kind: 'begin' });
  while (state.phase === 'on' && state.now !== undefined) {
    if (solver && outlookOf(sheet, state, at).off === 'late') {
      const way = waysFrom(sheet, state, at, solver).find(({ asks, wins }) => asks === undefined && wins > 0);
      if (way) {
        taken.push(way.text);
        happen({ kind: 'change', changes: [...way.changes], text: way.text });
      }
    }
    at += course.took(state.now, state.given[state.now] ?? '');
    const next = state.order.find((id) => state.given[id] !== undefined && state.times[id] === undefined);
    const held = plan.blocks.find(({ id }) => id === next)?.window?.earliest ?? 0;
    at = Math.max(at, held);
    happen({ kind: 'next' });
  }
  return { state, end: at, taken };
}
