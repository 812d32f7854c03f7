import { must } from '../../time/index.ts';
import { type Demand, demandsOf } from '../plan/demands.ts';
import { layOut } from '../plan/layout.ts';
import type { Plan } from '../plan/plan.ts';
import { shortest } from '../plan/words.ts';
import type { Solver } from './linear.ts';
import { ModelBuilder } from './linear.ts';
import { EXACT } from './slot-model.ts';
import { possible } from './solve.ts';

/** Demands that cannot all hold, though any one fewer can. */
export interface Conflict {
  readonly demands: readonly Demand[];
  /** True when it is proven that no smaller set of demands is in conflict. */
  readonly smallest: boolean;
}

/** How often the solver is asked before the best set so far has to do. */
const MOST_ASKED = 400;

/**
 * The smallest set of demands in conflict of a plan that cannot be kept; nothing when it can.
 *
 * First one set from which nothing can be taken away (deletion filter). Then smaller ones are looked for: every
 * conflict has to meet the complement of every set of demands that can be kept, so the least set that meets all
 * complements seen so far bounds the size from below; when it is in conflict itself, it is the smallest.
 * Source of the second part: hitting-set duality of conflicts and corrections, Reiter 1987, Artificial Intelligence 32.
 */
export function smallestConflict(plan: Plan, solver: Solver): Conflict | undefined {
  const layout = layOut(plan);
  const all = demandsOf(plan, layout);
  let asked = 0;
  const known = new Map<string, boolean>();
  const can = (set: readonly number[]): boolean => {
    const key = [...set].toSorted((a, b) => a - b).join();
    const before = known.get(key);
    if (before !== undefined) return before;
    asked++;
    const answer = possible(plan, layout, pick(all, set), solver);
    known.set(key, answer);
    return answer;
  };
  const every = all.map((_, i) => i);
  if (can(every)) return undefined;

  let best = every;
  for (const candidate of deletionOrder(plan, all)) {
    const without = best.filter((i) => i !== candidate);
    if (!can(without)) best = without;
  }
  const corrections: number[][] = [];
  while (asked < MOST_ASKED) {
    const hit = leastHit(corrections, every.length, solver);
    if (hit.length >= best.length) return { demands: pick(all, best), smallest: true };
    if (!can(hit)) return { demands: pick(all, hit), smallest: true };
    let kept = hit;
    for (const extra of every) if (!kept.includes(extra) && can([...kept, extra])) kept = [...kept, extra];
    corrections.push(every.filter((i) => !kept.includes(i)));
  }
  return { demands: pick(all, best), smallest: false };
}

function pick(all: readonly Demand[], set: readonly number[]): Demand[] {
  return [...set].toSorted((a, b) => a - b).flatMap((i) => all[i] ?? []);
}

/** Demands in the order in which to try to do without them: first what weighs least, so that what weighs most is left. */
function deletionOrder(plan: Plan, all: readonly Demand[]): number[] {
  const weight = (demand: Demand) => {
    if (demand.kind === 'must') return 1e6 + shortest(plan, demand.block);
    return demand.kind === 'slot' ? Number.POSITIVE_INFINITY : demand.kind === 'buffer' ? -1 : 0;
  };
  const weights = all.map(weight);
  return all.map((_, i) => i).toSorted((a, b) => must(weights[a], 'a weight') - must(weights[b], 'a weight') || b - a);
}

/** The fewest numbers below `count` of which every set holds at least one. */
function leastHit(sets: readonly (readonly number[])[], count: number, solver: Solver): number[] {
  if (sets.length === 0) return [];
  const m = new ModelBuilder();
  const chosen = Array.from({ length: count }, () => m.choice());
  for (const set of sets)
    m.atLeast(
      set.map((i) => [i, 1]),
      1,
    );
  const outcome = solver.solve(m, [{ direction: 'least', terms: chosen.map((v) => [v, 1]), within: EXACT }]);
  return outcome.state === 'optimal'
    ? chosen.filter((v) => must(outcome.values[v], 'the value of a variable') > 0.5)
    : chosen;
}
