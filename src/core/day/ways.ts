import {
  type Choice,
  clockText,
  EXACT,
  type Goal,
  givenAs,
  layOut,
  lengthText,
  type Plan,
  type PlanBlock,
  quantile,
  type SlotModel,
  type Solver,
  shortestPlan,
  solve,
  timetable,
  worthOf,
} from '../fit/index.ts';
import { listWords } from '../read/index.ts';
import { must } from '../time/index.ts';
import type { DaySheet } from './day-sheet.ts';
import type { DayState } from './day-state.ts';
import { CHANCE_WANTED, endsOf, shareWithin } from './outlook.ts';
import { type Remaining, remainingOf } from './remaining.ts';

/** One block given otherwise, brought in, or left out. */
export interface WayChange {
  readonly block: string;
  readonly treatment: string | null;
}

/** Something that can be done about how the class goes, whole: one key takes it. */
export interface Way {
  readonly text: string;
  readonly changes: readonly WayChange[];
  /** How much earlier the class ends with it, s. */
  readonly wins: number;
  readonly worthLost: number;
  /** When the class is likely to end with it, s from its planned start. */
  readonly end: number;
  /** Chance that it then ends in time. */
  readonly chance: number;
  /** It moves what is never moved without asking: what exactly, in words. */
  readonly asks?: string;
  readonly slotSeconds?: number;
  readonly freed?: readonly string[];
}

/** So many ways stand ready. */
const READY = 3;
/** A later end is offered in steps of so many seconds. */
const END_STEP = 300;

/**
 * The best ways to give the rest of a class, best first; none while there is nothing better than how it is planned.
 *
 * The first is the rest that is worth most and ends in time 4 times in 5. The next is the best that does without at
 * least one change of the first, and so on: so no way is another one with something needless added.
 * Source of the order: E. L. Lawler, Management Science 18(7), 1972, on computing the K best solutions (from memory).
 *
 * Breaks, food and safety keep their length and stand where they stand, and the class ends when it was to end; a way
 * that would change that comes last and says so.
 *
 * @param at s from the planned start
 */
export function waysFrom(sheet: DaySheet, state: DayState, at: number, solver: Solver): readonly Way[] {
  if (state.phase === 'over') return [];
  const moment = state.phase === 'before' ? Math.max(0, at) : at;
  const remaining = remainingOf(sheet, state, moment);
  if (remaining.plan.blocks.length === 0) return [];
  const ends = endsOf(remaining);
  const mean = ends.reduce((sum, end) => sum + end, 0) / ends.length;
  const reserve = Math.max(0, Math.ceil(quantile(ends, CHANCE_WANTED) - mean));
  const chance = shareWithin(ends, remaining.plan.slotSeconds);
  const context = { remaining, moment, chance };
  for (const { plan, asks, freed } of looserAndLooser(remaining.plan, reserve)) {
    const found = bestThree(plan, remaining, solver);
    if (found === undefined) continue;
    const ways = found.map((choice) => wayOf(context, plan, choice, { asks, freed }));
    const later = chance < CHANCE_WANTED && ways.length < READY ? [endLater(context, state, ends)] : [];
    return [...ways, ...later].slice(0, READY);
  }
  return noWayInTime(context, state, ends, solver);
}

interface Context {
  readonly remaining: Remaining;
  readonly moment: number;
  readonly chance: number;
}

interface Looser {
  readonly plan: Plan;
  readonly asks?: string | undefined;
  readonly freed?: readonly string[] | undefined;
}

/** What is asked of the rest, and what of it is let go first where it cannot all hold. */
function looserAndLooser(plan: Plan, reserve: number): readonly Looser[] {
  const { screenSeconds: _, seatedSeconds: __, ...limits } = plan.limits;
  const unseated = { ...plan, limits };
  const late = plan.blocks.filter(({ window }) => window !== undefined);
  const freed = late.map(({ id }) => id);
  const moved = {
    ...unseated,
    blocks: plan.blocks.map((block): PlanBlock => {
      const { window, ...rest } = block;
      return window ? { ...rest, window: { earliest: window.earliest, latest: 86_400 } } : block;
    }),
  };
  const asks = `${listWords(late.map(({ title }) => `"${title}"`))} may start later than written`;
  return [
    { plan: { ...plan, bufferSeconds: reserve } },
    { plan: { ...unseated, bufferSeconds: reserve } },
    { plan },
    { plan: unseated },
    ...(late.length > 0
      ? [
          { plan: { ...moved, bufferSeconds: reserve }, asks, freed },
          { plan: moved, asks, freed },
        ]
      : []),
  ];
}

/** Ways of giving the rest, best first; nothing where there is none, an empty row where it is planned so already. */
function bestThree(plan: Plan, { choice }: Remaining, solver: Solver): readonly Choice[] | undefined {
  const first = best(plan, choice, [], solver);
  if (!first) return undefined;
  const found = [first];
  if (changesOf(plan, choice, first).length === 0) return [];
  while (found.length < READY) {
    const next = withoutOneOfEach(found.map((each) => changesOf(plan, choice, each)))
      .map((forbidden) => best(plan, choice, forbidden, solver))
      .filter((each) => each !== undefined)
      .filter((each) => !found.some((other) => sameWays(other, each)))
      .toSorted(
        (a, b) => calmWorth(plan, choice, b) - calmWorth(plan, choice, a) || endOf(plan, a) - endOf(plan, b),
      )[0];
    // Where nothing has to change, the plan as it is comes next; whoever wants that presses no key.
    if (!next || changesOf(plan, choice, next).length === 0) break;
    found.push(next);
  }
  return found;
}

interface IndexedChange {
  readonly block: number;
  readonly treatment: number | undefined;
}

/** One change of each row, in every combination. */
function withoutOneOfEach(rows: readonly (readonly IndexedChange[])[]): readonly (readonly IndexedChange[])[] {
  return rows.reduce<readonly (readonly IndexedChange[])[]>(
    (sets, row) => sets.flatMap((set) => row.map((change) => [...set, change])),
    [[]],
  );
}

function sameWays(a: Choice, b: Choice): boolean {
  return a.every((pick, block) => pick?.treatment === b[block]?.treatment);
}

function endOf(plan: Plan, choice: Choice): number {
  return timetable(plan, layOut(plan), choice).end;
}

/** The best choice that makes none of some changes; treatments by their place in the plan as it was given. */
function best(plan: Plan, from: Choice, forbidden: readonly IndexedChange[], solver: Solver): Choice | undefined {
  const blocks = plan.blocks.map((block, index): PlanBlock => {
    const not = forbidden.filter((change) => change.block === index);
    const gone = not.flatMap(({ treatment }) => (treatment === undefined ? [] : [treatment]));
    return {
      ...block,
      must: block.must || not.some(({ treatment }) => treatment === undefined),
      treatments: block.treatments.filter((_, treatment) => !gone.includes(treatment)),
    };
  });
  const answer = solve({ ...plan, blocks }, solver, undefined, calmGoal(plan, blocks, from));
  if (typeof answer === 'string') return undefined;
  return answer.choice.map((pick, index) => {
    const way = givenAs({ blocks }, answer.choice, index);
    const treatment = plan.blocks[index]?.treatments.findIndex((each) => each.id === way?.id) ?? -1;
    return pick && treatment !== -1 ? { ...pick, treatment } : undefined;
  });
}

/** A second of an earlier end counts less than any worth. In one goal: three in a row take ten times as long. */
const WORTH_BEFORE_SECONDS = 100_000;

/** What a change has to be worth to be made at all: a class that is turned over for little is hard to lead. A judgement. */
export const CHANGE_COSTS = 3;

/** Most worth with the fewest changes, then the earliest end. */
function calmGoal(plan: Plan, blocks: readonly PlanBlock[], from: Choice): (model: SlotModel) => readonly Goal[] {
  return ({ end, choices }) => {
    const stays = (block: number, treatment: number) => {
      const id = givenAs(plan, from, block)?.id;
      return id !== undefined && blocks[block]?.treatments[treatment]?.id === id;
    };
    const terms = [
      ...choices.map(({ variable, block, treatment, worth }) => {
        // What is given now costs when it is left out, so it is worth that much more when it stays.
        const calm = from[block] === undefined ? -CHANGE_COSTS : stays(block, treatment) ? CHANGE_COSTS : 0;
        return [variable, (worth + calm) * WORTH_BEFORE_SECONDS] as const;
      }),
      ...end.map(([variable, factor]) => [variable, -factor] as const),
    ];
    return [{ direction: 'most', terms, within: EXACT }];
  };
}

/** Worth of a way of giving the rest, less what its changes cost. */
function calmWorth(plan: Plan, from: Choice, to: Choice): number {
  return worthOf(plan, to) - CHANGE_COSTS * changesOf(plan, from, to).length;
}

function changesOf(plan: Plan, from: Choice, to: Choice): readonly IndexedChange[] {
  return plan.blocks.flatMap((_, block) => {
    const treatment = to[block]?.treatment;
    return from[block]?.treatment === treatment ? [] : [{ block, treatment }];
  });
}

function wayOf({ remaining, moment }: Context, plan: Plan, choice: Choice, { asks, freed }: Omit<Looser, 'plan'>): Way {
  const before = remaining.choice;
  const changes = changesOf(plan, before, choice);
  const changed = { ...remaining, plan: { ...plan, bufferSeconds: 0 }, choice };
  const ends = endsOf(changed);
  const end = timetable(plan, remaining.layout, choice).end;
  const texts = changes.map(({ block, treatment }) => {
    const { title = '', treatments = [] } = plan.blocks[block] ?? {};
    const way = treatment === undefined ? undefined : treatments[treatment];
    if (!way) return `leave out "${title}"`;
    return before[block] ? `give "${title}" as "${way.title || way.id}"` : `bring in "${title}"`;
  });
  return {
    text: listWords(texts),
    changes: changes.map(({ block, treatment }) => ({
      block: must(plan.blocks[block], 'a block').id,
      treatment: treatment === undefined ? null : (plan.blocks[block]?.treatments[treatment]?.id ?? null),
    })),
    wins: timetable(remaining.plan, remaining.layout, before).end - end,
    worthLost: worthOf(plan, before) - worthOf(plan, choice),
    end: moment + end,
    chance: shareWithin(ends, remaining.plan.slotSeconds),
    ...(asks !== undefined && { asks }),
    ...(freed !== undefined && { freed }),
  };
}

/** The class as it is, with an end that it keeps 4 times in 5. */
function endLater({ remaining, moment }: Context, state: DayState, ends: Float64Array): Way {
  const over = quantile(ends, CHANCE_WANTED) + moment - state.slotSeconds;
  const more = Math.max(END_STEP, Math.ceil(over / END_STEP) * END_STEP);
  const slotSeconds = state.slotSeconds + more;
  // The plan's clock begins at the moment.
  const clock = clockText(remaining.plan, slotSeconds - moment);
  return {
    text: `let the class end at ${clock}`,
    changes: [],
    wins: 0,
    worthLost: 0,
    end: moment + timetable(remaining.plan, remaining.layout, remaining.choice).end,
    chance: shareWithin(ends, slotSeconds - moment),
    asks: `the class ends ${lengthText(more)} later than it was announced`,
    slotSeconds,
  };
}

/** Where nothing ends in time: the shortest rest, and the end that it needs. */
function noWayInTime(context: Context, state: DayState, ends: Float64Array, solver: Solver): readonly Way[] {
  const { plan } = context.remaining;
  const free = looserAndLooser(plan, 0).at(-1) ?? { plan };
  const tight = shortestPlan(free.plan, solver);
  const later = endLater(context, state, ends);
  if (!tight) return [later];
  const short = wayOf(context, free.plan, tight.choice, free);
  if (short.changes.length === 0) return [later];
  const changed = { ...context.remaining, plan: free.plan, choice: tight.choice };
  const both = endLater({ ...context, remaining: changed }, state, endsOf(changed));
  return [
    short,
    {
      ...both,
      text: `${short.text}, and ${both.text}`,
      changes: short.changes,
      wins: short.wins,
      worthLost: short.worthLost,
      ...(short.freed && { freed: short.freed }),
    },
    later,
  ];
}
