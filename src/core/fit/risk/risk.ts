import { mean } from '../plan/estimate.ts';
import { type Layout, timetable } from '../plan/layout.ts';
import type { Choice, Plan } from '../plan/plan.ts';
import { networkOf } from './network.ts';
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
  const at = quantilesIn(end);
  const late = [...end.keys()].filter((draw) => (end[draw] as number) > plan.slotSeconds + 1e-6);
  const causes = network.map(({ estimate }, index) => {
    const sum = late.reduce((total, draw) => total + (took[index]?.[draw] as number), 0);
    return { block: blocks[index] as number, extraSeconds: sum / late.length - mean(estimate) };
  });
  const extra = causes.reduce((total, { extraSeconds }) => total + Math.max(0, extraSeconds), 0);
  return {
    overrunProbability: late.length / DRAWS,
    end: { p10: at(0.1), p50: at(0.5), p80: at(0.8), p90: at(0.9), p95: at(0.95) },
    causes: causes
      .filter(({ extraSeconds }) => extraSeconds >= WORTH_NAMING)
      .map((cause) => ({ ...cause, share: cause.extraSeconds / extra }))
      .toSorted((a, b) => b.share - a.share),
    latestStart: latestStarts(plan, layout, choice, (block) => took[blocks.indexOf(block)]),
    lateStart: blocks.flatMap((block, index) => {
      const latest = plan.blocks[block]?.window?.latest;
      if (latest === undefined) return [];
      const count = starts[index]?.filter((start) => start > latest + 1e-6).length ?? 0;
      return [{ block, probability: count / DRAWS }];
    }),
    bufferFor90: Math.max(0, at(0.9) - timetable(plan, layout, choice).end),
  };
}

/** What is not exceeded with a probability, of all that was drawn. */
function quantilesIn(drawn: Float64Array): (probability: number) => number {
  const sorted = drawn.toSorted();
  return (probability) => sorted[Math.ceil(probability * sorted.length) - 1] as number;
}

/**
 * The latest moment to start a block so that, with 90 %, the next fixed time and the end of the slot are still met.
 * Counted backwards: what follows the next fixed time hangs on that one's own latest moment.
 */
function latestStarts(
  plan: Plan,
  layout: Layout,
  choice: Choice,
  timesOf: (block: number) => Float64Array | undefined,
): (number | undefined)[] {
  const result: (number | undefined)[] = plan.blocks.map(() => undefined);
  let deadline = plan.slotSeconds;
  let after = new Float64Array(DRAWS);
  for (let group = layout.groups.length - 1; group >= 0; group--) {
    const lanes = (layout.groups[group]?.lanes ?? [])
      .map((lane) => lane.filter((block) => choice[block]?.group === group))
      .filter((lane) => lane.length > 0);
    if (lanes.length === 0) continue;
    const lengths = new Float64Array(DRAWS);
    const firsts: number[] = [];
    for (const lane of lanes) {
      let rest = after;
      let latest = deadline;
      for (const block of lane.toReversed()) {
        const times = timesOf(block);
        if (!times) continue;
        rest = rest.map((seconds, draw) => seconds + (times[draw] as number));
        const held = plan.blocks[block]?.window?.latest ?? Number.POSITIVE_INFINITY;
        latest = Math.min(deadline - quantilesIn(rest)(0.9), held);
        result[block] = latest;
      }
      firsts.push(latest);
      rest.forEach((seconds, draw) => {
        lengths[draw] = Math.max(lengths[draw] as number, seconds);
      });
    }
    if (lanes.flat().some((block) => plan.blocks[block]?.window)) {
      deadline = Math.min(...firsts);
      after = new Float64Array(DRAWS);
    } else after = lengths;
  }
  return result;
}
