import type { ShopClass } from '../model/index.ts';
import { demandsOf, keeps } from './plan/demands.ts';
import { type Layout, layOut, type Timetable, timetable } from './plan/layout.ts';
import type { PartLookup } from './plan/part-times.ts';
import type { Choice, Plan } from './plan/plan.ts';
import { withoutDemand } from './plan/relax.ts';
import { toPlan, type UnknownTime } from './plan/to-plan.ts';
import { lengthText, titleOf } from './plan/words.ts';
import { type Risk, riskOf } from './risk/risk.ts';
import { type Conflict, smallestConflict } from './solve/conflict.ts';
import type { Solver } from './solve/linear.ts';
import { type LeftOut, reasonsLeft } from './solve/reasons.ts';
import { regroupings, type TurnsOfBlock, turnsOf } from './solve/regroup.ts';
import { type Proof, solve, worthOf } from './solve/solve.ts';
import { type TrimTargets, trimTargets } from './solve/trim-targets.ts';
import { type Advice, bestFirst, shortestPlan, waysOut } from './solve/ways-out.ts';

/** A class fitted into its slot: the plan, how sure it is, and what could be done about it. */
export interface ClassFit {
  readonly shopClass: ShopClass;
  readonly plan: Plan;
  readonly layout: Layout;
  /** The best plan; of an overfull class the shortest one that keeps everything asked for but the end. */
  readonly choice: Choice;
  readonly timetable: Timetable;
  readonly fits: boolean;
  /** Only of a class that fits. */
  readonly proof?: Proof;
  /** Only of a class that does not fit. */
  readonly conflict?: Conflict;
  readonly left: readonly LeftOut[];
  readonly advice: readonly Advice[];
  readonly risk: Risk;
  /** How the hands-on blocks at stations are turned round; none where the number of attendees is not known. */
  readonly turns: readonly TurnsOfBlock[];
  readonly unknown: readonly UnknownTime[];
  /** What the edits have to lose for the class to fit with nothing dropped. */
  readonly trim: TrimTargets;
}

/** Fits a class into its slot. */
export function fitClass(shopClass: ShopClass, parts: PartLookup, solver: Solver): ClassFit {
  const { plan, unknown } = toPlan(shopClass, parts);
  const layout = layOut(plan);
  const whole = { shopClass, plan, layout, unknown, trim: trimTargets(plan) };
  const best = solve(plan, solver);
  if (typeof best !== 'string') {
    const { choice, proof } = best;
    return {
      ...whole,
      choice,
      timetable: best.timetable,
      fits: true,
      proof,
      left: reasonsLeft(plan, best, unknown, solver),
      advice: [...regroupings(shopClass, parts, plan, choice), ...waysToWinTime(plan, layout, choice)],
      turns: turnsOf(shopClass, plan, choice),
      risk: riskOf(plan, layout, choice),
    };
  }
  const conflict = smallestConflict(plan, solver) ?? { demands: [], smallest: false };
  const choice = nearestChoice(plan, conflict, solver);
  return {
    ...whole,
    choice,
    timetable: timetable(plan, layout, choice),
    fits: false,
    conflict,
    left: plan.blocks.flatMap((_, block) =>
      choice[block] ? [] : [{ block, reason: 'left out while the class cannot be fitted at all' }],
    ),
    advice: [...regroupings(shopClass, parts, plan, choice, solver), ...waysOut(plan, conflict, solver)].toSorted(
      bestFirst,
    ),
    turns: turnsOf(shopClass, plan, choice),
    risk: riskOf(plan, layout, choice),
  };
}

/** What to show of a class that cannot be fitted: the shortest plan without the end, then without what is in conflict. */
function nearestChoice(plan: Plan, conflict: Conflict, solver: Solver): Choice {
  let looser = plan;
  const tight = shortestPlan(plan, solver);
  if (tight) return tight.choice;
  for (const demand of conflict.demands) {
    if (demand.kind === 'must') continue;
    looser = withoutDemand(looser, demand);
    const answer = shortestPlan(looser, solver);
    if (answer) return answer.choice;
  }
  const free = shortestPlan({ ...looser, blocks: looser.blocks.map((block) => ({ ...block, must: false })) }, solver);
  return free?.choice ?? plan.blocks.map(() => undefined);
}

/** Shorter treatments and blocks that may go, each by itself, cheapest minute first. */
function waysToWinTime(plan: Plan, layout: Layout, choice: Choice): Advice[] {
  const demands = demandsOf(plan, layout);
  const { end } = timetable(plan, layout, choice);
  const worth = worthOf(plan, choice);
  const consider = (block: number, kind: Advice['kind'], text: string, given: Choice[number]): Advice[] => {
    const changed = choice.map((pick, i) => (i === block ? given : pick));
    const savesSeconds = end - timetable(plan, layout, changed).end;
    if (savesSeconds < 1 || !demands.every((demand) => keeps(plan, layout, changed, demand))) return [];
    return [
      {
        kind,
        text: `${text}: saves ${lengthText(savesSeconds)}`,
        savesSeconds,
        worthLost: worth - worthOf(plan, changed),
        enough: true,
      },
    ];
  };
  return plan.blocks
    .flatMap((block, index) => {
      const pick = choice[index];
      if (!pick) return [];
      const others = block.treatments.flatMap(({ title, id }, treatment) =>
        treatment === pick.treatment
          ? []
          : consider(index, 'shorten', `give ${titleOf(plan, index)} as ${title || id}`, { ...pick, treatment }),
      );
      return block.must
        ? others
        : [...others, ...consider(index, 'drop', `leave out ${titleOf(plan, index)}`, undefined)];
    })
    .toSorted((a, b) => a.worthLost / a.savesSeconds - b.worthLost / b.savesSeconds || b.savesSeconds - a.savesSeconds);
}
