import {
  type Choice,
  certain,
  type Estimate,
  type Layout,
  layOut,
  meanLeft,
  type Plan,
  type PlanBlock,
  type PlanTreatment,
  runOf,
} from '../fit/index.ts';
import { must } from '../time/index.ts';
import { clipsOf, courseOf, speedOf } from './course.ts';
import type { DaySheet } from './day-sheet.ts';
import { blocksAhead, type DayState } from './day-state.ts';
import { leftToShow } from './screen.ts';

/** The class from a moment on, as a plan of its own: times are counted from that moment. */
export interface Remaining {
  readonly plan: Plan;
  readonly layout: Layout;
  /** As it is to be given now. */
  readonly choice: Choice;
  /** Of what is on: its estimate, and for how long it has been on. By index in the plan. */
  readonly on: ReadonlyMap<number, { readonly estimate: Estimate; readonly elapsed: number }>;
}

/** Kinds of block that are given as they were planned: nobody saves time on safety, or on what people eat and drink. */
const PROTECTED: ReadonlySet<string> = new Set(['safety', 'break', 'food']);

/**
 * What remains of a class.
 *
 *     planned    |welcome|safety|look|measure|soup|sprockets|chain|…|
 *     at 10:31                        ^-------|----|---------|-----|…|
 *                                     the rest of what is on, then what is ahead, in its order
 *
 * Blocks keep their order. What was left out may be brought in where its place is still ahead. The time of those who
 * came is reckoned with, not of those who were expected.
 *
 * @param at s from the planned start
 */
export function remainingOf(sheet: DaySheet, state: DayState, at: number): Remaining {
  const { plan } = courseOf(sheet, state.attendance);
  const pace = paceOf(plan, state);
  const blockOf = new Map(plan.blocks.map((block) => [block.id, block]));
  const begun = (id: string) => state.times[id] !== undefined && state.times[id]?.end === undefined;
  const nowOn = state.order.filter((id) => begun(id));
  const ahead = new Set(blocksAhead(state));
  const place = state.now === undefined ? -1 : state.order.indexOf(state.now);
  const free = new Set(
    state.order.filter((id, i) => i > place && state.given[id] === undefined && state.times[id] === undefined),
  );
  const ids = [...nowOn, ...state.order.filter((id) => ahead.has(id) || free.has(id))];
  const there = new Set(ids);
  const past = (id: string) => state.times[id] !== undefined;
  const on = new Map<number, { estimate: Estimate; elapsed: number }>();

  const blocks = ids.flatMap((id): PlanBlock[] => {
    const block = blockOf.get(id);
    if (!block) return [];
    const { window, beside, ...rest } = block;
    const only = (list: readonly string[]) => list.filter((other) => there.has(other));
    const hangs = [...block.needs, ...block.together].some((other) => !there.has(other) && !past(other));
    const given = state.given[id];
    const set = begun(id) || (PROTECTED.has(block.kind) && given !== undefined);
    if (given === undefined && hangs) return [];
    const ways = set ? block.treatments.filter((way) => way.id === given) : block.treatments;
    if (ways.length === 0) return [];
    return [
      {
        ...rest,
        after: only(block.after),
        before: only(block.before),
        needs: only(block.needs),
        together: only(block.together),
        anywhere: false,
        must: set || (block.must && given !== undefined),
        ...(beside !== undefined && there.has(beside) ? { beside } : {}),
        ...(window && !begun(id) && !state.freed.includes(id)
          ? {
              window: {
                earliest: Math.max(0, Math.ceil(window.earliest - at)),
                latest: Math.floor(window.latest - at),
              },
            }
          : {}),
        treatments: ways
          .map((way) => paced(way, pace))
          .map((way) => (begun(id) ? restOf(sheet, state, block, way, at) : way)),
      },
    ];
  });
  blocks.forEach(({ id }, index) => {
    const way = blockOf.get(id)?.treatments.find((each) => each.id === state.given[id]);
    if (!begun(id) || !way) return;
    const shown = clipsOf(sheet, id, way.id).length > 0;
    const left = must(blocks[index]?.treatments[0], 'the rest of a block').seconds;
    on.set(
      index,
      shown
        ? { estimate: certain(left), elapsed: 0 }
        : { estimate: paced(way, pace).estimate, elapsed: elapsedOf(state, id, at) },
    );
  });
  const { handsOnShare: _, ...limits } = plan.limits;
  const remaining: Plan = {
    ...plan,
    startsAt: plan.startsAt + at,
    slotSeconds: Math.max(0, Math.floor(state.slotSeconds - at)),
    bufferSeconds: 0,
    limits: {
      ...limits,
      screenBefore: runSince(plan, state, at, 'screen'),
      seatedBefore: runSince(plan, state, at, 'seated'),
    },
    blocks,
  };
  const layout = layOut(remaining);
  const choice = blocks.map(({ id, treatments }, index) => {
    const treatment = treatments.findIndex((way) => way.id === state.given[id]);
    return treatment === -1 || free.has(id)
      ? undefined
      : { treatment, group: must(layout.home[index], 'the home of a block') };
  });
  return { plan: remaining, layout, choice, on };
}

/** For how many minutes of class the plan's own pace counts beside the real one. A judgement, no source. */
const PACE_WEIGHT = 30 * 60;

/**
 * How much longer than estimated this class takes things, as far as it went; 1 at its beginning. What runs by itself on
 * screen, and breaks, say nothing about it.
 */
export function paceOf(plan: Plan, state: DayState): number {
  let expected = PACE_WEIGHT;
  let took = PACE_WEIGHT;
  for (const block of plan.blocks) {
    const { start, end } = state.times[block.id] ?? {};
    const way = block.treatments.find(({ id }) => id === state.given[block.id]);
    if (start === undefined || end === undefined || !way || way.screenSeconds > 0 || block.beside !== undefined)
      continue;
    if (block.kind === 'break' || block.kind === 'food') continue;
    expected += way.seconds;
    took += end - start;
  }
  return took / expected;
}

/** A way of giving a block at the pace of this class. */
function paced(way: PlanTreatment, pace: number): PlanTreatment {
  if (way.screenSeconds > 0) return way;
  const { least, likely, most } = way.estimate;
  return {
    ...way,
    seconds: Math.ceil(way.seconds * pace - 1e-6),
    estimate: { least: least * pace, likely: likely * pace, most: most * pace },
  };
}

/** What is on, as it still has to go: on screen by what is left to show, otherwise by what its estimate leaves. */
function restOf(sheet: DaySheet, state: DayState, block: PlanBlock, way: PlanTreatment, at: number): PlanTreatment {
  const clips = clipsOf(sheet, block.id, way.id);
  const shown = clips.length > 0;
  const left = shown
    ? leftToShow(clips, state.screen, speedOf(sheet, block.id, way.id), at)
    : meanLeft(way.estimate, elapsedOf(state, block.id, at));
  const seconds = Math.ceil(left - 1e-6);
  return {
    ...way,
    seconds,
    estimate: certain(seconds),
    screenSeconds: shown ? Math.min(way.screenSeconds, seconds) : 0,
  };
}

/** For how long a block has been on, s. */
function elapsedOf({ times }: DayState, id: string, at: number): number {
  return Math.max(0, at - (times[id]?.start ?? at));
}

/** Time on screen, or seated, since the last break, as it really went; whole s. */
function runSince(plan: Plan, state: DayState, at: number, limit: 'screen' | 'seated'): number {
  let run = 0;
  const gone = Object.entries(state.times).toSorted(([, a], [, b]) => a.start - b.start);
  for (const [id, { start, end = at }] of gone) {
    const index = plan.blocks.findIndex((block) => block.id === id);
    const way = plan.blocks[index]?.treatments.find((each) => each.id === state.given[id]);
    if (!way || plan.blocks[index]?.beside !== undefined) continue;
    const seconds = Math.max(0, Math.round(end - start));
    const screenSeconds = Math.min(way.screenSeconds, seconds);
    const { adds, ends } = runOf(plan, index, { ...way, seconds, screenSeconds }, limit);
    run = ends ? 0 : run + adds;
  }
  return run;
}
