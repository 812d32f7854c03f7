import { listWords } from '../../read/index.ts';
import type { Plan } from '../plan/plan.ts';
import type { UnknownTime } from '../plan/to-plan.ts';
import { demandText, lengthText, shortest, titleOf } from '../plan/words.ts';
import { smallestConflict } from './conflict.ts';
import type { Solver } from './linear.ts';
import { EXACT } from './slot-model.ts';
import { type Solved, solve, worthOf } from './solve.ts';

/** A block that is not given, and why. */
export interface LeftOut {
  readonly block: number;
  readonly reason: string;
}

/** Why each block of the best plan that is left out is: what stands in its way, or what giving it would cost. */
export function reasonsLeft(
  plan: Plan,
  best: Solved,
  unknown: readonly UnknownTime[],
  solver: Solver,
): readonly LeftOut[] {
  return plan.blocks.flatMap((block, index): LeftOut[] => {
    if (best.choice[index]) return [];
    if (block.treatments.length === 0) {
      const lesson = unknown.find((u) => u.block === block.id)?.lesson;
      if (lesson === undefined) return [{ block: index, reason: 'left out on purpose' }];
      return [
        {
          block: index,
          reason: `its time is not known: the lesson ${lesson} has no part like that, or its footage could not be measured`,
        },
      ];
    }
    return [{ block: index, reason: reason(plan, best, index, solver) }];
  });
}

function reason(plan: Plan, best: Solved, index: number, solver: Solver): string {
  const forced = { ...plan, blocks: plan.blocks.map((b, i) => (i === index ? { ...b, must: true } : b)) };
  const answer = solve(forced, solver, undefined, (model) => [
    { direction: 'most', terms: model.worth, within: EXACT },
    { direction: 'least', terms: model.end, within: EXACT, branches: 50 },
  ]);
  const free = plan.slotSeconds - plan.bufferSeconds - best.timetable.end;
  const takes = `takes ${lengthText(shortest(plan, index))} at least`;
  if (answer === 'gave-up') return `${takes}, where ${lengthText(Math.max(0, free))} are free`;
  if (answer === 'infeasible') {
    const conflict = smallestConflict(forced, solver);
    const others = (conflict?.demands ?? []).filter((d) => !(d.kind === 'must' && d.block === index));
    return `${takes} and cannot stand beside this: ${listWords(others.map((demand) => demandText(plan, demand)))}`;
  }
  const gone = plan.blocks.flatMap((_, i) => (best.choice[i] && !answer.choice[i] ? [titleOf(plan, i)] : []));
  const changed = plan.blocks.flatMap((b, i) => {
    const [from, to] = [best.choice[i], answer.choice[i]];
    if (!from || !to || from.treatment === to.treatment) return [];
    return [`give ${titleOf(plan, i)} as ${b.treatments[to.treatment]?.title || b.treatments[to.treatment]?.id}`];
  });
  const price = worthOf(plan, best.choice) - worthOf(plan, answer.choice);
  const steps = [...(gone.length > 0 ? [`leave out ${listWords(gone)}`] : []), ...changed];
  const room = `${takes}, where ${lengthText(Math.max(0, free))} are free`;
  if (steps.length === 0) return price === 0 ? `${takes} and adds nothing to the worth of the class` : `${room}`;
  return price === 0
    ? `${room}; making room (${listWords(steps)}) would gain nothing`
    : `${room}; making room (${listWords(steps)}) would cost ${price} more worth than it brings`;
}
