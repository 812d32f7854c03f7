import { networkOf, quantile, simulate, timetable } from '../fit/index.ts';
import { must } from '../time/index.ts';
import { courseOf } from './course.ts';
import type { DaySheet } from './day-sheet.ts';
import type { DayState } from './day-state.ts';
import { type Remaining, remainingOf } from './remaining.ts';

/** How a class is likely to go on. Times in s from its planned start. */
export interface Outlook {
  /** Chance that it ends in time, 0 … 1. */
  readonly chance: number;
  readonly end: { readonly expected: number; readonly p10: number; readonly p80: number; readonly p90: number };
  /** When each block that is ahead is likely to start, by id. */
  readonly starts: Readonly<Record<string, number>>;
  /** What is left of the block that is on, s. */
  readonly left: number;
  /** The block that comes next. */
  readonly next?: string;
  /** How much later than on paper the next block starts, or the class ends, s; negative: earlier. */
  readonly behind: number;
  /** Reality lies outside of what the plan counted with. */
  readonly off?: 'late' | 'early';
}

const DRAWS = 2000;
const SEED = 42;
/** A class that ends in time less often than this is called late. A judgement, no source. */
export const CHANCE_WANTED = 0.8;

/** Ends of so many played-through remainders, s from the moment, in order of size. */
export function endsOf({ plan, layout, choice, on }: Remaining): Float64Array {
  const { network, blocks } = networkOf(plan, layout, choice);
  const live = network.map((activity, index) => {
    const known = on.get(blocks[index] ?? -1);
    return known ? { ...activity, ...known } : activity;
  });
  return simulate(live, DRAWS, SEED).end.toSorted();
}

/** Share of remainders that end within a time. */
export function shareWithin(sorted: Float64Array, seconds: number): number {
  return sorted.filter((end) => end <= seconds + 1e-6).length / Math.max(1, sorted.length);
}

/**
 * How a class is likely to go on from a moment.
 *
 * @param at s from the planned start
 */
export function outlookOf(sheet: DaySheet, state: DayState, at: number): Outlook {
  const moment = state.phase === 'before' ? Math.max(0, at) : at;
  if (state.phase === 'over') return afterIt(sheet, state);
  const remaining = remainingOf(sheet, state, moment);
  const { plan, layout, choice } = remaining;
  const times = timetable(plan, layout, choice);
  const ends = endsOf(remaining);
  const starts: Record<string, number> = {};
  plan.blocks.forEach(({ id }, index) => {
    const start = times.blocks[index]?.start;
    if (start !== undefined && state.times[id] === undefined) starts[id] = moment + start;
  });
  const next = state.order.find((id) => starts[id] !== undefined && !isBeside(sheet, id));
  const paper = paperOf(sheet);
  const onPaper = next === undefined ? paper.end : paper.starts.get(next);
  const expected = next === undefined ? moment + times.end : (starts[next] ?? moment);
  const chance = shareWithin(ends, state.slotSeconds - moment);
  const behind = onPaper === undefined ? 0 : expected - onPaper.planned;
  const off =
    chance < CHANCE_WANTED || (onPaper && expected > onPaper.p90 + 60)
      ? ('late' as const)
      : onPaper && expected < onPaper.p10 - 60
        ? ('early' as const)
        : undefined;
  const now = plan.blocks.findIndex(({ id }) => id === state.now);
  return {
    chance,
    end: {
      expected: moment + times.end,
      p10: moment + quantile(ends, 0.1),
      p80: moment + quantile(ends, 0.8),
      p90: moment + quantile(ends, 0.9),
    },
    starts,
    left: now === -1 ? 0 : must(plan.blocks[now]?.treatments[0], 'the rest of a block').seconds,
    ...(next !== undefined && { next }),
    behind,
    ...(off && { off }),
  };
}

function afterIt(sheet: DaySheet, state: DayState): Outlook {
  const end = Math.max(0, ...Object.values(state.times).map((time) => time.end ?? 0));
  return {
    chance: end <= state.slotSeconds ? 1 : 0,
    end: { expected: end, p10: end, p80: end, p90: end },
    starts: {},
    left: 0,
    behind: end - paperOf(sheet).end.planned,
  };
}

function isBeside(sheet: DaySheet, id: string): boolean {
  return sheet.shopClass.blocks.some((block) => block.id === id && block.beside !== undefined);
}

interface OnPaper {
  readonly planned: number;
  readonly p10: number;
  readonly p90: number;
}

const papers = new WeakMap<DaySheet, { starts: ReadonlyMap<string, OnPaper>; end: OnPaper }>();

/** The plan as it was printed: when each block starts, and between what times 8 of 10 classes start it. */
export function paperOf(sheet: DaySheet): { starts: ReadonlyMap<string, OnPaper>; end: OnPaper } {
  const before = papers.get(sheet);
  if (before) return before;
  const { plan, layout, choice } = courseOf(sheet);
  const times = timetable(plan, layout, choice);
  const { network, blocks } = networkOf(plan, layout, choice);
  const drawn = simulate(network, DRAWS, SEED);
  const band = (planned: number, values: Float64Array): OnPaper => {
    const sorted = values.toSorted();
    return { planned, p10: quantile(sorted, 0.1), p90: quantile(sorted, 0.9) };
  };
  const starts = new Map(
    blocks.map((block, index) => [
      must(plan.blocks[block], 'a block').id,
      band(must(times.blocks[block], 'the time of a block').start, must(drawn.starts[index], 'the starts of a block')),
    ]),
  );
  const paper = { starts, end: band(times.end, drawn.end) };
  papers.set(sheet, paper);
  return paper;
}
