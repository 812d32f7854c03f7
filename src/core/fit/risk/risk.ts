import { must } from '../../time/index.ts';
import { mean } from '../plan/estimate.ts';
import { type Layout, timetable } from '../plan/layout.ts';
import type { Choice, Plan, PlanBlock } from '../plan/plan.ts';
import { networkOf } from './network.ts';
import { at, quantile } from './quantile.ts';
import { simulate } from './simulate.ts';

/** A block that makes the class late, of those classes that are. */
export interface Cause {
  readonly block: number;
  /** How much longer than planned it takes in a class that overruns, s. */
  readonly extraSeconds: number;
  /** Share of all extra time in those classes, 0 … 1. */
  readonly share: number;
}

export interface Risk {
  /** Chance that the class ends after its slot; its standard error is 0.35 % at most. */
  readonly overrunProbability: number;
  /** End times not exceeded with these probabilities, s from the start. */
  readonly end: {
    readonly p10: number;
    readonly p50: number;
    readonly p80: number;
    readonly p90: number;
    readonly p95: number;
  };
  readonly causes: readonly Cause[];
  /** For each given block the latest start, s, from which the rest still holds with 90 %; nothing: already past. */
  readonly latestStart: readonly (number | undefined)[];
  /** Chance that a block with a fixed time or window starts after it. */
  readonly lateStart: readonly { readonly block: number; readonly probability: number }[];
  /** Free time at the end with which the class ends in its slot 9 times in 10, s. */
  readonly bufferFor90: number;
}

/** Less extra time than this is not named as a cause, s. */
const WORTH_NAMING = 15;
const DRAWS = 20_000;
/** Any number; the same one each time, so that the same plan has the same risk. */
const SEED = 42;

/** How a plan's times may turn out. */
export function riskOf(plan: Plan, layout: Layout, choice: Choice): Risk {
  const { network, blocks } = networkOf(plan, layout, choice);
  const { took, starts, end } = simulate(network, DRAWS, SEED);
  const sorted = end.toSorted();
  const endAt = (probability: number) => quantile(sorted, probability);
  const late = [...end.keys()].filter((draw) => at(end, draw) > plan.slotSeconds + 1e-6);
  const causes = network.map(({ estimate }, index) => {
    const times = took[index] as Float64Array;
    const sum = late.reduce((total, draw) => total + at(times, draw), 0);
    return { block: must(blocks[index], 'a block'), extraSeconds: sum / late.length - mean(estimate) };
  });
  const extra = causes.reduce((total, { extraSeconds }) => total + Math.max(0, extraSeconds), 0);
  return {
    overrunProbability: late.length / DRAWS,
    end: { p10: endAt(0.1), p50: endAt(0.5), p80: endAt(0.8), p90: endAt(0.9), p95: endAt(0.95) },
    causes: causes
      .filter(({ extraSeconds }) => extraSeconds >= WORTH_NAMING)
      .map((cause) => ({ ...cause, share: cause.extraSeconds / extra }))
      .toSorted((a, b) => b.share - a.share),
    latestStart: latestStarts(plan, layout, choice, (block) => took[blocks.indexOf(block)] as Float64Array),
    lateStart: blocks.flatMap((block, index) => {
      const latest = plan.blocks[block]?.window?.latest;
      if (latest === undefined) return [];
      const late = (starts[index] as Float64Array).filter((start) => start > latest + 1e-6);
      return [{ block, probability: late.length / DRAWS }];
    }),
    bufferFor90: Math.max(0, endAt(0.9) - timetable(plan, layout, choice).end),
  };
}

/**
 * The latest moment to start a block so that, with 90 %, the next fixed time and the end of the slot are still met.
 * Counted backwards: what follows a fixed time hangs on that one's own latest moment, and so does what stands before it.
 */
function latestStarts(
  plan: Plan,
  layout: Layout,
  choice: Choice,
  timesOf: (block: number) => Float64Array,
): (number | undefined)[] {
  const result: (number | undefined)[] = plan.blocks.map(() => undefined);
  const nothing = new Float64Array(DRAWS);
  let deadline = plan.slotSeconds;
  let after = nothing;
  for (const [group, { lanes }] of [...layout.groups.entries()].toReversed()) {
    const firsts: number[] = [];
    const lengths = new Float64Array(DRAWS);
    let fixed = false;
    for (const lane of lanes) {
      let [due, rest, first] = [deadline, after, deadline];
      for (const block of lane.filter((each) => choice[each]?.group === group).toReversed()) {
        const times = timesOf(block);
        rest = rest.map((seconds, draw) => seconds + at(times, draw));
        const { window } = plan.blocks[block] as PlanBlock;
        first = Math.min(due - quantile(rest.toSorted(), 0.9), window?.latest ?? Number.POSITIVE_INFINITY);
        result[block] = first;
        if (!window) continue;
        fixed = true;
        [due, rest] = [first, nothing];
      }
      firsts.push(first);
      rest.forEach((seconds, draw) => {
        lengths[draw] = Math.max(at(lengths, draw), seconds);
      });
    }
    if (fixed) deadline = Math.min(...firsts);
    after = fixed ? nothing : lengths;
  }
  return result;
}
