import { must } from '../../time/index.ts';
import { type Demand, runBefore, runOf } from '../plan/demands.ts';
import type { Layout } from '../plan/layout.ts';
import type { Choice, Plan } from '../plan/plan.ts';
import { type Goal, type LinearModel, ModelBuilder, type Terms } from './linear.ts';

/** A class as a linear programme, with the way back to a choice of treatments. */
export interface SlotModel {
  readonly model: LinearModel;
  /** Sum of the worths of what is given. */
  readonly worth: Terms;
  /** End of the last block, s. */
  readonly end: Terms;
  /** How far the given blocks stray from the order of preference: first written first, floats near their place. */
  readonly stray: Terms;
  /** Every way of giving a block at a place, with its variable. */
  readonly choices: readonly {
    readonly variable: number;
    readonly block: number;
    readonly treatment: number;
    readonly worth: number;
  }[];
  choiceOf(values: readonly number[]): Choice;
}

interface Variable {
  readonly variable: number;
  readonly block: number;
  readonly group: number;
  readonly treatment: number;
  readonly worth: number;
}

/**
 * Writes a class as a linear programme.
 *
 * @param demands those that have to hold; what is not in the list is free
 */
export function slotModel(plan: Plan, layout: Layout, demands: readonly Demand[]): SlotModel {
  const m = new ModelBuilder();
  const { blocks } = plan;
  const has = (kind: Demand['kind']) => demands.some((demand) => demand.kind === kind);
  const all: Variable[] = blocks.flatMap(({ treatments }, block) =>
    must(layout.seats[block], 'the seats of a block').flatMap((group) =>
      treatments.map(({ worth }, treatment) => ({ variable: m.choice(), block, group, treatment, worth })),
    ),
  );
  const byBlock = blocks.map((_, block) => all.filter((v) => v.block === block));
  const of = (block: number) => must(byBlock[block], 'the choices of a block');
  const choiceTerms = (block: number, factor = 1): Terms => of(block).map(({ variable }) => [variable, factor]);
  const at = (block: number, group: number) => of(block).filter((v) => v.group === group);
  const seconds = ({ block, treatment }: Variable) => must(blocks[block]?.treatments[treatment], 'a treatment').seconds;
  const secondsTerms = (block: number, group: number, factor = 1): Terms =>
    at(block, group).map((v) => [v.variable, factor * seconds(v)]);

  const longest = blocks.reduce((sum, b) => sum + Math.max(0, ...b.treatments.map((t) => t.seconds)), 0);
  const latest = Math.max(0, ...blocks.map(({ window }) => window?.latest ?? 0));
  const horizon = has('slot') ? plan.slotSeconds : Math.max(plan.slotSeconds, latest) + longest;

  for (let block = 0; block < blocks.length; block++) m.atMost(choiceTerms(block), 1);
  for (const { leader, lanes } of layout.groups)
    for (const block of lanes.flat())
      if (block !== leader) m.atMost([...choiceTerms(block), ...choiceTerms(leader, -1)], 0);

  // Time: the end of every group, as an anchor plus what was given since.
  const timed = new Set(demands.flatMap((d) => (d.kind === 'time' ? [d.block] : [])));
  const apart = new Set(has('shared') ? [] : layout.groups.flatMap(({ lanes }) => lanes));
  const sharedLanes = new Set(demands.flatMap((d) => (d.kind === 'shared' ? [d.blocks] : [])));
  const end = m.amount(Math.max(0, horizon));
  let elapsed: Terms = [];
  layout.groups.forEach(({ lanes }, group) => {
    if (lanes.flat().some((block) => timed.has(block))) {
      const start = m.amount(Math.max(0, horizon));
      m.atLeast([[start, 1], ...negative(elapsed)], 0);
      elapsed = [[start, 1]];
      for (const lane of lanes)
        lane.forEach((block, position) => {
          const window = blocks[block]?.window;
          if (!timed.has(block) || !window) return;
          const offset = lane.slice(0, position).flatMap((before) => secondsTerms(before, group));
          const here = at(block, group).map(({ variable }) => variable);
          const begins: Terms = [[start, 1], ...offset];
          m.atLeast([...begins, ...here.map((v) => [v, -window.earliest] as const)], 0);
          // Where it is not given, its start may lie anywhere up to the horizon.
          const reach = horizon + offset.reduce((sum, [, factor]) => sum + factor, 0);
          const free = Math.max(0, reach - window.latest);
          m.atMost([...begins, ...here.map((v) => [v, free] as const)], window.latest + free);
        });
    }
    if (lanes.flat().length > 1) {
      const length = m.amount(longest);
      for (const lane of lanes) {
        const together = !apart.has(lane) && (lane.length === 1 || sharedLanes.has(lane));
        for (const stretch of together ? [lane] : lane.map((block) => [block]))
          m.atLeast([[length, 1], ...stretch.flatMap((block) => secondsTerms(block, group, -1))], 0);
      }
      elapsed = [...elapsed, [length, 1]];
    } else elapsed = [...elapsed, ...lanes.flat().flatMap((block) => secondsTerms(block, group))];
  });
  m.atLeast([[end, 1], ...negative(elapsed)], 0);

  const buffer = m.amount(Math.max(plan.bufferSeconds, 0));
  for (const demand of demands) {
    if (demand.kind === 'slot')
      m.atMost(
        [
          [end, 1],
          [buffer, 1],
        ],
        plan.slotSeconds,
      );
    else if (demand.kind === 'buffer') m.atLeast([[buffer, 1]], plan.bufferSeconds);
    else if (demand.kind === 'must') m.atLeast(choiceTerms(demand.block), 1);
    else if (demand.kind === 'needs') m.atMost([...choiceTerms(demand.block), ...choiceTerms(demand.other, -1)], 0);
    else if (demand.kind === 'together') {
      m.atMost([...choiceTerms(demand.block), ...choiceTerms(demand.other, -1)], 0);
      m.atLeast([...choiceTerms(demand.block), ...choiceTerms(demand.other, -1)], 0);
    } else if (demand.kind === 'after') after(demand.block, demand.other);
    else if (demand.kind === 'hands-on') {
      const share = must(plan.limits.handsOnShare, 'the share of hands-on');
      const hands = layout.groups.flatMap(({ lanes }, group) =>
        must(lanes[0], 'the main lane')
          .filter((b) => blocks[b]?.kind === 'hands-on')
          .flatMap((b) => secondsTerms(b, group)),
      );
      m.atLeast([...hands, [end, -share]], 0);
    }
  }

  /** Where both are given, `other` stands in an earlier group, or earlier in the same lane. */
  function after(block: number, other: number): void {
    for (let group = 0; group < layout.groups.length; group++) {
      const early = of(block).filter((v) => v.group <= group);
      const late = of(other).filter((v) => v.group >= group);
      const lane = layout.groups[group]?.lanes.find((blocks) => blocks.includes(block) && blocks.includes(other));
      const fine = lane !== undefined && lane.indexOf(other) < lane.indexOf(block);
      if (early.length > 0 && late.length > 0 && !fine)
        m.atMost(
          [...early, ...late].map(({ variable }) => [variable, 1]),
          1,
        );
    }
  }

  if (has('screen')) run('screen', must(plan.limits.screenSeconds, 'the limit on screen'));
  if (has('seated')) run('seated', must(plan.limits.seatedSeconds, 'the limit seated'));

  /** The run carried from group to group, never above the limit; see `longestRun`. */
  function run(limit: 'screen' | 'seated', most: number): void {
    const before = runBefore(plan, limit);
    let carried: Terms = before > 0 ? [[m.amount(before, before), 1]] : [];
    const grows = (before: Terms, changes: Terms): Terms => {
      if (changes.length === 0) return before;
      const now: Terms = [[m.amount(most), 1]];
      m.atLeast([...now, ...negative(before), ...changes], 0);
      return now;
    };
    layout.groups.forEach(({ lanes }, group) => {
      const ends = lanes.map((lane) =>
        lane.reduce((before, block) => {
          const changes = at(block, group).flatMap((v) => {
            const treatment = blocks[block]?.treatments[v.treatment];
            const counts = treatment ? runOf(plan, block, treatment, limit) : { adds: 0, ends: false };
            const change = counts.ends ? most : -counts.adds;
            return change === 0 ? [] : [[v.variable, change] as const];
          });
          return grows(before, changes);
        }, carried),
      );
      const [main = [], ...others] = ends;
      if (others.every((other) => other === carried)) {
        carried = main;
        return;
      }
      // Who has it worst counts on; a lane without a given block has nobody in it.
      const worst: Terms = [[m.amount(most), 1]];
      m.atLeast([...worst, ...negative(main)], 0);
      others.forEach((other, position) => {
        for (const block of lanes[position + 1] ?? [])
          m.atLeast([...worst, ...negative(other), ...choiceTerms(block, -most)], -most);
      });
      carried = worst;
    });
  }

  return {
    model: m,
    worth: all.map(({ variable, worth }) => [variable, worth]),
    choices: all,
    end: [[end, 1]],
    stray: all.map(({ variable, block, group, treatment }) => {
      const ways = must(blocks[block], 'a block').treatments.length;
      const moved = Math.abs(group - must(layout.home[block], 'the home of a block'));
      return [variable, (treatment - ways) * (blocks.length - block) + moved];
    }),
    choiceOf(values) {
      const choice: { treatment: number; group: number }[] = new Array(blocks.length);
      for (const { variable, block, group, treatment } of all)
        if (must(values[variable], 'the value of a variable') > 0.5) choice[block] = { treatment, group };
      return Array.from({ length: blocks.length }, (_, block) => choice[block]);
    },
  };
}

function negative(terms: Terms): Terms {
  return terms.map(([variable, factor]) => [variable, -factor]);
}

/** A goal in whole numbers is settled when nothing a whole one better is left. */
export const EXACT = 0.999;

/** Branches for the tie-breaks: exact for a usual class, and never long. */
const TIE_BRANCHES = 50;
/** From so many ways of giving blocks on, proving a tie-break costs more than the plan itself. */
const TIES_UP_TO = 150;

/**
 * First the most worth, proven; then, of a class of usual size, the earliest end and the order of preference.
 * Of a very large class the first plan that is proven to be worth most is taken; it is the same one every time.
 */
export function goalsOf({ worth, end, stray, choices }: SlotModel): readonly Goal[] {
  const most: Goal = { direction: 'most', terms: worth, within: EXACT };
  if (choices.length > TIES_UP_TO) return [most];
  return [
    most,
    { direction: 'least', terms: end, within: EXACT, branches: TIE_BRANCHES },
    { direction: 'least', terms: stray, within: EXACT, branches: TIE_BRANCHES },
  ];
}
