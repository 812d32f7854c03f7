import { type Demand, demandsOf, keeps } from '../plan/demands.ts';
import { type Layout, layOut, type Timetable, timetable } from '../plan/layout.ts';
import { type Choice, givenAs, type Plan } from '../plan/plan.ts';
import type { Goal, Solver } from './linear.ts';
import { goalsOf, type SlotModel, slotModel } from './slot-model.ts';

/** How well the best plan is known to be the best. */
export interface Proof {
  readonly solver: string;
  /** Worth of the plan, recomputed in whole numbers. */
  readonly worth: number;
  /** No plan is worth more than this. */
  readonly bound: number;
  /** (bound - worth) / worth; 0 is proven. */
  readonly gap: number;
}

/** A plan that keeps every demand it was asked to keep. */
export interface Solved {
  readonly choice: Choice;
  readonly timetable: Timetable;
  readonly proof: Proof;
}

export type Answer = Solved | 'infeasible' | 'gave-up';

/** Sum of the worths of what is given. */
export function worthOf(plan: Plan, choice: Choice): number {
  return plan.blocks.reduce((sum, _, block) => sum + (givenAs(plan, choice, block)?.worth ?? 0), 0);
}

/**
 * The best choice for a plan: most worth, then earliest end, then nearest to the order written.
 *
 * @param demands what has to hold; everything the plan asks for when left out
 * @param goals other goals, where wanted
 * @throws Error when the solver's choice breaks a demand it was given: a defect of this code, not of the plan
 */
export function solve(
  plan: Plan,
  solver: Solver,
  demands?: readonly Demand[],
  goals: (model: SlotModel) => readonly Goal[] = goalsOf,
): Answer {
  const layout = layOut(plan);
  const wanted = demands ?? demandsOf(plan, layout);
  const model = slotModel(plan, layout, wanted);
  const outcome = solver.solve(model.model, goals(model));
  if (outcome.state !== 'optimal') return outcome.state;
  const choice = model.choiceOf(outcome.values);
  if (demands === undefined) assertKept(plan, layout, choice, wanted);
  const worth = worthOf(plan, choice);
  const bound = Math.max(worth, Math.floor((outcome.reached[0]?.bound ?? worth) + 1e-6));
  return {
    choice,
    timetable: timetable(plan, layout, choice),
    proof: { solver: solver.name, worth, bound, gap: worth === bound ? 0 : (bound - worth) / Math.max(1, worth) },
  };
}

/** True where some choice keeps all the demands; a solver that gave up counts as yes. */
export function possible(plan: Plan, layout: Layout, demands: readonly Demand[], solver: Solver): boolean {
  return solver.solve(slotModel(plan, layout, demands).model, []).state !== 'infeasible';
}

function assertKept(plan: Plan, layout: Layout, choice: Choice, demands: readonly Demand[]): void {
  const broken = demands.find((demand) => !keeps(plan, layout, choice, demand));
  if (broken) throw new Error(`the solver broke the demand ${JSON.stringify(broken)} of ${plan.id}`);
}
