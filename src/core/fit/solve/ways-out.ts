import { listWords } from '../../read/index.ts';
import { type Demand, handsOnShare, longestRun } from '../plan/demands.ts';
import { layOut } from '../plan/layout.ts';
import { givenAs, type Plan } from '../plan/plan.ts';
import { withoutDemand } from '../plan/relax.ts';
import { clockText, lengthText, titleOf } from '../plan/words.ts';
import type { Conflict } from './conflict.ts';
import type { Goal, Solver } from './linear.ts';
import { EXACT, type SlotModel } from './slot-model.ts';
import { type Solved, solve } from './solve.ts';

/** Something that can be done about a plan, with what it wins and costs. */
export interface Advice {
  readonly kind: 'drop' | 'shorten' | 'regroup' | 'move' | 'lengthen' | 'loosen';
  readonly text: string;
  /** Time it wins, s. */
  readonly savesSeconds: number;
  /** Worth that is lost with it. */
  readonly worthLost: number;
  /** True when nothing else has to be done for the class to fit. */
  readonly enough: boolean;
}

/** The shortest class that keeps everything asked for except the end of the slot: what an overfull plan comes to. */
export function shortestPlan(plan: Plan, solver: Solver): Solved | undefined {
  const answer = solve(withoutDemand(plan, { kind: 'slot' }), solver, undefined, endFirst);
  return typeof answer === 'string' ? undefined : answer;
}

function endFirst({ end, worth, stray }: SlotModel): readonly Goal[] {
  return [
    { direction: 'least', terms: end, within: EXACT },
    { direction: 'most', terms: worth, within: EXACT },
    { direction: 'least', terms: stray, within: EXACT, branches: 50 },
  ];
}

/**
 * What would let an overfull class fit, best first: what is enough by itself before what only helps,
 * then least worth lost, then most time won.
 */
export function waysOut(plan: Plan, conflict: Conflict, solver: Solver): readonly Advice[] {
  const tight = shortestPlan(plan, solver);
  const over = tight ? tight.timetable.end + plan.bufferSeconds - plan.slotSeconds : 0;
  const found: Advice[] = conflict.demands.flatMap((demand) => wayAround(plan, demand, tight, over, solver));
  if (tight && over > 0) found.push(...shorten(plan, tight, over));
  const several = dropSeveral(plan, tight, solver);
  found.push(...several.filter(({ text }) => !found.some((other) => other.text === text)));
  return found.toSorted(bestFirst);
}

/** What is enough by itself first, then least worth lost, then most time won. */
export function bestFirst(a: Advice, b: Advice): number {
  return Number(b.enough) - Number(a.enough) || a.worthLost - b.worthLost || b.savesSeconds - a.savesSeconds;
}

function wayAround(plan: Plan, demand: Demand, tight: Solved | undefined, over: number, solver: Solver): Advice[] {
  const looser = withoutDemand(plan, demand);
  const answer = solve(looser, solver);
  const solved = typeof answer === 'string' ? undefined : answer;
  switch (demand.kind) {
    case 'slot':
      return tight && over > 0
        ? [
            {
              kind: 'lengthen',
              text: `let the class end at ${clockText(plan, Math.ceil((plan.slotSeconds + over) / 60) * 60)}, ${lengthText(Math.ceil(over / 60) * 60)} later`,
              savesSeconds: over,
              worthLost: 0,
              enough: true,
            },
          ]
        : [];
    case 'buffer':
      return solved
        ? [
            {
              kind: 'loosen',
              text: `give up ${lengthText(over)} of the buffer`,
              savesSeconds: over,
              worthLost: 0,
              enough: true,
            },
          ]
        : [];
    case 'must': {
      const block = plan.blocks[demand.block];
      // Nobody is advised to begin without the words that keep people whole.
      if (block?.kind === 'safety') return [];
      const shorter = solved ?? shortestPlan(looser, solver);
      const won = tight && shorter ? Math.max(0, tight.timetable.end - shorter.timetable.end) : 0;
      if (!block || (!solved && won === 0)) return [];
      const worth = worthIn(plan, tight, demand.block);
      const own = (tight && givenAs(plan, tight.choice, demand.block))?.seconds ?? won;
      return [
        {
          kind: 'drop',
          text: `leave out ${titleOf(plan, demand.block)}`,
          savesSeconds: Math.max(own, solved ? 0 : won),
          worthLost: worth,
          enough: solved !== undefined,
        },
      ];
    }
    case 'time': {
      const start = solved?.timetable.blocks[demand.block]?.start;
      if (start === undefined) return [];
      const window = plan.blocks[demand.block]?.window;
      const late = window ? (start > window.latest ? start - window.latest : window.earliest - start) : 0;
      return [
        {
          kind: 'move',
          text: `start ${titleOf(plan, demand.block)} at ${clockText(plan, start)}`,
          savesSeconds: Math.max(0, late),
          worthLost: 0,
          enough: true,
        },
      ];
    }
    case 'screen':
    case 'seated': {
      if (!solved) return [];
      const run = longestRun(plan, layOut(plan), solved.choice, demand.kind);
      const what = demand.kind === 'screen' ? 'on screen' : 'seated';
      return [
        {
          kind: 'loosen',
          text: `allow ${lengthText(Math.ceil(run / 60) * 60)} ${what} without a break`,
          savesSeconds: 0,
          worthLost: 0,
          enough: true,
        },
      ];
    }
    case 'hands-on': {
      if (!solved) return [];
      const share = Math.floor(handsOnShare(plan, layOut(plan), solved.choice) * 100);
      return [{ kind: 'loosen', text: `accept ${share} % hands-on`, savesSeconds: 0, worthLost: 0, enough: true }];
    }
    case 'shared':
      return solved
        ? [
            {
              kind: 'loosen',
              text: `give ${listWords(demand.blocks.map((b) => titleOf(plan, b)))} a ${plan.blocks.some(({ bay }) => bay === demand.what) ? 'bay' : 'presenter'} each`,
              savesSeconds: Math.max(0, over),
              worthLost: 0,
              enough: true,
            },
          ]
        : [];
    case 'needs':
    case 'together':
      return solved
        ? [
            {
              kind: 'loosen',
              text: `let ${titleOf(plan, demand.block)} stand without ${titleOf(plan, demand.other)}`,
              savesSeconds: 0,
              worthLost: 0,
              enough: true,
            },
          ]
        : [];
    case 'after':
      return solved
        ? [
            {
              kind: 'move',
              text: `write ${titleOf(plan, demand.block)} after ${titleOf(plan, demand.other)}, or let the order go`,
              savesSeconds: 0,
              worthLost: 0,
              enough: true,
            },
          ]
        : [];
  }
}

/** The blocks that could be cut to what is left for them. */
function shorten(plan: Plan, tight: Solved, over: number): Advice[] {
  return plan.blocks.flatMap((block, index): Advice[] => {
    const treatment = givenAs(plan, tight.choice, index);
    const span = tight.timetable.blocks[index];
    // With less than a third of it left it is another block, not a shorter one.
    if (!treatment || !span || treatment.seconds < 1.5 * over || block.beside !== undefined) return [];
    const left = treatment.seconds - over;
    const screen = treatment.screenSeconds > 0;
    const cut = screen
      ? `trim ${titleOf(plan, index)} by ${lengthText(over)} of programme`
      : `give ${titleOf(plan, index)} in ${lengthText(left)} instead of ${lengthText(treatment.seconds)}`;
    const speed = treatment.shown[0]?.speed ?? 1;
    return [
      {
        kind: 'shorten',
        text: screen && speed !== 1 ? `${cut} at the speed it is shown` : cut,
        savesSeconds: over,
        worthLost: 0,
        enough: true,
      },
    ];
  });
}

/** The set of must-haves to leave out that costs least worth. */
function dropSeveral(plan: Plan, tight: Solved | undefined, solver: Solver): Advice[] {
  const free = {
    ...plan,
    blocks: plan.blocks.map((block) => ({ ...block, must: block.must && block.kind === 'safety' })),
  };
  const answer = solve(free, solver, undefined, (model) => [
    { direction: 'most', terms: mustWorth(plan, model), within: EXACT },
    { direction: 'most', terms: model.worth, within: EXACT },
  ]);
  if (typeof answer === 'string') return [];
  const dropped = plan.blocks.flatMap((block, index) => (block.must && !answer.choice[index] ? [index] : []));
  if (dropped.length === 0) return [];
  return [
    {
      kind: 'drop',
      text: `leave out ${listWords(dropped.map((index) => titleOf(plan, index)))}`,
      savesSeconds: tight ? Math.max(0, tight.timetable.end - answer.timetable.end) : 0,
      worthLost: dropped.reduce((sum, index) => sum + worthIn(plan, tight, index), 0),
      enough: true,
    },
  ];
}

/** What a block is worth as the shortest plan gives it. */
function worthIn(plan: Plan, tight: Solved | undefined, index: number): number {
  return plan.blocks[index]?.treatments[tight?.choice[index]?.treatment ?? 0]?.worth ?? 0;
}

/** Worth of keeping each must-have at all, however it is given; one without worth still counts. */
function mustWorth(plan: Plan, model: SlotModel): Goal['terms'] {
  return model.choices.flatMap(({ variable, block }) => {
    const { must, treatments } = plan.blocks[block] ?? { must: false, treatments: [] };
    return must ? [[variable, 1 + Math.min(...treatments.map(({ worth }) => worth))] as const] : [];
  });
}
