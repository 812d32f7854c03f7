import { mean } from '../plan/estimate.ts';
import { type Layout, timetable } from '../plan/layout.ts';
import type { Choice, Plan } from '../plan/plan.ts';
import { endDistribution } from './end-distribution.ts';
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
  /** Chance that the class ends after its slot, worked out. */
  readonly overrunProbability: number;
  /** The same, counted in seeded draws; agrees within their error. */
  readonly drawnProbability: number;
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

/** Less extra time than this is not told as a cause, s. */
const WORTH_TELLING = 15;
const DRAWS = 20_000;
/** Any number; the same one each time, so that the same plan has the same risk. */
const SEED = 42;

/** How a plan's times may turn out. */
export function riskOf(plan: Plan, layout: Layout, choice: Choice): Risk {
  const { network, blocks } = networkOf(plan, layout, choice);
  const planned = timetable(plan, layout, choice);
  const { took, starts, end } = simulate(network, DRAWS, SEED);
  const worked = endDistribution(plan, layout, choice);
  const at = worked.quantile;
  const late: number[] = [];
  end.forEach((moment, draw) => {
    if (moment > plan.slotSeconds + 1e-6) late.push(draw);
  });
  const extra = network.map(({ estimate }, index) => {
    const times = took[index] ?? new Float64Array();
    return late.reduce((sum, draw) => sum + (times[draw] ?? 0), 0) / Math.max(1, late.length) - mean(estimate);
  });
  const total = extra.reduce((sum, seconds) => sum + Math.max(0, seconds), 0);
  const causes =
    late.length === 0
      ? []
      : blocks.map((block, index) => ({
          block,
          extraSeconds: extra[index] ?? 0,
          share: Math.max(0, extra[index] ?? 0) / Math.max(1e-9, total),
        }));
  const p90 = at(0.9);
  return {
    overrunProbability: worked.chanceAfter(plan.slotSeconds),
    drawnProbability: late.length / DRAWS,
    end: { p10: at(0.1), p50: at(0.5), p80: at(0.8), p90, p95: at(0.95) },
    causes: causes.filter(({ extraSeconds }) => extraSeconds >= WORTH_TELLING).toSorted((a, b) => b.share - a.share),
    latestStart: latestStarts(plan, layout, choice, { took, starts, end }, blocks),
    lateStart: blocks.flatMap((block, index) => {
      const latest = plan.blocks[block]?.window?.latest;
      if (latest === undefined) return [];
      const count = (starts[index] ?? new Float64Array()).filter((start) => start > latest + 1e-6).length;
      return [{ block, probability: count / DRAWS }];
    }),
    bufferFor90: Math.max(0, p90 - planned.end),
  };
}

/**
 * The latest moment to start a block so that, with 90 %, the next fixed time and the end of the slot are still met.
 * Counted backwards: what follows the next fixed time hangs on that one's own latest moment.
 */
function latestStarts(
  plan: Plan,
  layout: Layout,
  choice: Choice,
  { took }: { took: readonly Float64Array[] } & object & { starts: readonly Float64Array[]; end: Float64Array },
  blocks: readonly number[],
): (number | undefined)[] {
  const result: (number | undefined)[] = plan.blocks.map(() => undefined);
  let deadline = plan.slotSeconds;
  let after: Float64Array = new Float64Array(DRAWS);
  for (let group = layout.groups.length - 1; group >= 0; group--) {
    const lanes = (layout.groups[group]?.lanes ?? []).map((lane) =>
      lane.filter((block) => choice[block]?.group === group),
    );
    if (lanes.every((lane) => lane.length === 0)) continue;
    const lengths = new Float64Array(DRAWS);
    for (const lane of lanes) {
      let rest = after;
      for (const block of lane.toReversed()) {
        const times = took[blocks.indexOf(block)] ?? new Float64Array(DRAWS);
        rest = rest.map((seconds, draw) => seconds + (times[draw] ?? 0));
        const needed = rest.toSorted()[Math.floor(0.9 * DRAWS)] ?? 0;
        const latest = Math.min(deadline - needed, plan.blocks[block]?.window?.latest ?? Number.POSITIVE_INFINITY);
        result[block] = latest;
      }
      rest.forEach((seconds, draw) => {
        lengths[draw] = Math.max(lengths[draw] ?? 0, seconds);
      });
    }
    const timed = lanes.flat().filter((block) => plan.blocks[block]?.window);
    if (timed.length > 0) {
      deadline = Math.min(...lanes.flatMap((lane) => (lane[0] === undefined ? [] : [result[lane[0]] ?? deadline])));
      after = new Float64Array(DRAWS);
    } else after = lengths;
  }
  return result;
}
