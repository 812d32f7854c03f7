import { givenAs } from '../fit/index.ts';
import { must } from '../time/index.ts';
import { clipsNow, clipsOf, courseOf, speedOf } from './course.ts';
import type { DaySheet } from './day-sheet.ts';
import type { DayEvent } from './events.ts';
import { NOTHING_SHOWN, type Screen, screenOf, turnScreen } from './screen.ts';

/** A question that was set aside. */
export interface QuestionAsked {
  readonly id: string;
  readonly words: string;
  /** s of the class */
  readonly at: number;
  readonly block?: string;
  readonly lesson?: string;
  readonly step?: string;
  readonly answered: boolean;
  readonly answer?: string;
}

/** When a block began and ended, s from the planned start of the class. */
export interface BlockTimes {
  readonly start: number;
  readonly end?: number;
}

/** What a change of the plan has to put back when it is undone. */
interface Before {
  readonly text: string;
  readonly given: DayState['given'];
  readonly slotSeconds: number;
  readonly freed: readonly string[];
}

/** Where a class stands: what its events come to. */
export interface DayState {
  readonly phase: 'before' | 'on' | 'over';
  /** Ids of all blocks in the order in which they are given. */
  readonly order: readonly string[];
  /** How each block is given or was given; what is not in it is left out. */
  readonly given: Readonly<Record<string, string>>;
  readonly times: Readonly<Record<string, BlockTimes>>;
  /** The block that is on. */
  readonly now?: string;
  /** When the class has to end, s. */
  readonly slotSeconds: number;
  /** Blocks that need not start at their time of day any more. */
  readonly freed: readonly string[];
  /** Changes of the plan that can be undone, the last one at the end. */
  readonly changed: readonly Before[];
  /** How many came; nothing before they were counted. */
  readonly attendance?: number;
  /** What of the kit came back, and who has what did not. */
  readonly kit: Readonly<Record<string, { readonly back: number; readonly who?: string }>>;
  readonly questions: readonly QuestionAsked[];
  readonly screen: Screen;
  /** Moment of the last event, s. */
  readonly at: number;
}

/** The state before anything has happened. */
export function dayBefore(sheet: DaySheet): DayState {
  const { plan, choice, order } = courseOf(sheet);
  const idOf = (block: number) => must(plan.blocks[block], 'a block').id;
  const given = plan.blocks.flatMap((block, index) => {
    const treatment = givenAs(plan, choice, index)?.id;
    return treatment === undefined ? [] : [[block.id, treatment] as const];
  });
  return {
    phase: 'before',
    order: order.map(idOf),
    given: Object.fromEntries(given),
    times: {},
    slotSeconds: plan.slotSeconds,
    freed: [],
    changed: [],
    kit: {},
    questions: [],
    screen: NOTHING_SHOWN,
    at: Number.NEGATIVE_INFINITY,
  };
}

/** What a row of events comes to. */
export function dayAfter(sheet: DaySheet, events: readonly DayEvent[]): DayState {
  return events.reduce((state, event) => dayStep(sheet, state, event), dayBefore(sheet));
}

/** Blocks that will still be given, in order. */
export function blocksAhead({ order, given, times }: DayState): readonly string[] {
  return order.filter((id) => given[id] !== undefined && times[id] === undefined);
}

/**
 * The state after one more event. An event that makes no sense where the class stands changes nothing; time never runs
 * backwards, whatever the event says.
 */
export function dayStep(sheet: DaySheet, state: DayState, event: DayEvent): DayState {
  const at = Math.max(event.at, state.at);
  const after = { ...state, at };
  switch (event.kind) {
    case 'begin': {
      const [first] = mainAhead(sheet, state);
      return state.phase === 'before' && first !== undefined
        ? starting(sheet, { ...after, phase: 'on' }, first)
        : state;
    }
    case 'next': {
      if (state.phase !== 'on') return state;
      const [next] = mainAhead(sheet, state);
      const ended = ending(sheet, after);
      return next === undefined ? { ...ended, phase: 'over', screen: NOTHING_SHOWN } : starting(sheet, ended, next);
    }
    case 'jump': {
      if (state.phase !== 'on' || !mainAhead(sheet, state).includes(event.block)) return state;
      const others = state.order.filter((id) => id !== event.block);
      const place = state.now === undefined ? 0 : others.indexOf(state.now) + 1;
      const order = others.toSpliced(place, 0, event.block);
      return starting(sheet, { ...ending(sheet, after), order }, event.block);
    }
    case 'back':
      return state.phase === 'before' ? state : steppedBack(sheet, after);
    case 'over':
      return state.phase === 'on' ? { ...ending(sheet, after), phase: 'over', screen: NOTHING_SHOWN } : state;
    case 'change':
      return state.phase === 'over' ? state : changed(sheet, after, event);
    case 'undo':
      return undone(after);
    case 'attendance':
      return { ...after, attendance: event.count };
    case 'kit': {
      const { key, back, who } = event;
      return { ...after, kit: { ...state.kit, [key]: { back, ...(who ? { who } : {}) } } };
    }
    case 'question': {
      if (state.questions.some(({ id }) => id === event.id)) return state;
      const { id, words, lesson, step } = event;
      const tied = lesson !== undefined && step !== undefined ? { lesson, step } : {};
      const block = state.now === undefined ? {} : { block: state.now };
      return { ...after, questions: [...state.questions, { id, words, at, ...block, ...tied, answered: false }] };
    }
    case 'answered': {
      const { answer } = event;
      const questions = state.questions.map((each) =>
        each.id === event.question ? { ...each, answered: true, ...(answer ? { answer } : {}) } : each,
      );
      return { ...after, questions };
    }
    default:
      return state.phase === 'over'
        ? state
        : { ...after, screen: turnScreen(sheet, clipsNow(sheet, state), state.screen, { ...event, at }) };
  }
}

/** Blocks ahead that stand by themselves: one that runs beside another starts and ends with it. */
function mainAhead(sheet: DaySheet, state: DayState): readonly string[] {
  return blocksAhead(state).filter((id) => besideOf(sheet, id) === undefined);
}

function besideOf(sheet: DaySheet, id: string): string | undefined {
  const { beside } = sheet.shopClass.blocks.find((block) => block.id === id) ?? {};
  return sheet.shopClass.blocks.some((block) => block.id === beside) ? beside : undefined;
}

function starting(sheet: DaySheet, state: DayState, block: string): DayState {
  const { at } = state;
  const together = [block, ...blocksAhead(state).filter((id) => besideOf(sheet, id) === block)];
  const treatment = state.given[block];
  return {
    ...state,
    now: block,
    times: { ...state.times, ...Object.fromEntries(together.map((id) => [id, { start: at }])) },
    screen: screenOf(clipsOf(sheet, block, treatment), state.screen, speedOf(sheet, block, treatment), at),
  };
}

/** Ends the block that is on, with what runs beside it. */
function ending(sheet: DaySheet, state: DayState): DayState {
  const { now, at, times } = state;
  const { now: _, ...rest } = state;
  const closed = Object.entries(times).map(([id, time]) => {
    const on = time.end === undefined && (id === now || besideOf(sheet, id) === now);
    return [id, on ? { ...time, end: at } : time] as const;
  });
  return { ...rest, times: Object.fromEntries(closed) };
}

/** The last block that was begun is not begun yet, and the one before it goes on. */
function steppedBack(sheet: DaySheet, state: DayState): DayState {
  const { now, times } = state;
  const byStart = Object.entries(times)
    .filter(([id]) => besideOf(sheet, id) === undefined)
    .toSorted(([, a], [, b]) => a.start - b.start || (a.end ?? Infinity) - (b.end ?? Infinity));
  const again = byStart.filter(([id]) => id !== now).at(-1)?.[0];
  if (again === undefined) return state;
  const reopened = (id: string) => id === again || besideOf(sheet, id) === again;
  const kept = Object.entries(times)
    .filter(([id]) => now === undefined || (id !== now && besideOf(sheet, id) !== now))
    .map(([id, { start, end }]) => [id, reopened(id) || end === undefined ? { start } : { start, end }] as const);
  const { screen } = state;
  return {
    ...state,
    phase: 'on',
    now: again,
    times: Object.fromEntries(kept),
    screen: { ...NOTHING_SHOWN, start: screen.start + 1, dark: screen.dark },
  };
}

function changed(sheet: DaySheet, state: DayState, event: Extract<DayEvent, { kind: 'change' }>): DayState {
  const given = { ...state.given };
  for (const { block, treatment } of event.changes) {
    const written = sheet.shopClass.blocks.find(({ id }) => id === block);
    // What has begun is what it is.
    if (!written || state.times[block]) continue;
    if (treatment === null) delete given[block];
    else if (written.treatments.some(({ id }) => id === treatment)) given[block] = treatment;
  }
  const { text } = event;
  const before = { text, given: state.given, slotSeconds: state.slotSeconds, freed: state.freed };
  return {
    ...state,
    given,
    slotSeconds: event.slotSeconds ?? state.slotSeconds,
    freed: [...new Set([...state.freed, ...(event.freed ?? [])])],
    changed: [...state.changed, before],
  };
}

/** The plan is what it was before its last change; what has begun since stays as it was given. */
function undone(state: DayState): DayState {
  const last = state.changed.at(-1);
  if (!last) return state;
  const begun = Object.entries(state.given).filter(([id]) => state.times[id] !== undefined);
  const back = Object.entries(last.given).filter(([id]) => state.times[id] === undefined);
  return {
    ...state,
    given: Object.fromEntries([...back, ...begun]),
    slotSeconds: last.slotSeconds,
    freed: last.freed,
    changed: state.changed.slice(0, -1),
  };
}
