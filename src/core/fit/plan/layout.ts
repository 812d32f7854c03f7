import { type Choice, givenIn, type Plan, type PlanBlock } from './plan.ts';

/** Blocks that run at the same time: one lane beside the other; in a lane, one after the other. */
export interface Group {
  /** The block the others run beside. */
  readonly leader: number;
  /** Block indexes; the leader stands in the first lane. */
  readonly lanes: readonly (readonly number[])[];
}

/**
 * The order of a class. A block that may stand anywhere has a group of its own in every gap;
 * every other block stands in exactly one group.
 */
export interface Layout {
  readonly groups: readonly Group[];
  /** For each block, the groups it can stand in, in order. */
  readonly seats: readonly (readonly number[])[];
  /** For each block, the group nearest to where it is written. */
  readonly home: readonly number[];
}

/** The block it finally runs beside; itself when it runs by itself or its neighbour is unknown. */
export function leaderOf(plan: Plan, index: number): number {
  const seen = new Set<number>();
  let at = index;
  for (;;) {
    const { beside } = plan.blocks[at] as PlanBlock;
    const next = beside === undefined ? -1 : plan.blocks.findIndex(({ id }) => id === beside);
    if (next === -1 || seen.has(next)) return at;
    seen.add(at);
    at = next;
  }
}

/** Lays the blocks out in the order written; blocks that share a presenter or a bay get one lane. */
export function layOut(plan: Plan): Layout {
  const leaders = plan.blocks.map((_, index) => leaderOf(plan, index));
  const accompanied = new Set(leaders.filter((leader, index) => leader !== index));
  const floats = plan.blocks.flatMap((block, index) =>
    block.anywhere && leaders[index] === index && !accompanied.has(index) ? [index] : [],
  );
  const groups: Group[] = [];
  const seats: number[][] = plan.blocks.map(() => []);
  const home: number[] = plan.blocks.map(() => 0);

  const seat = (index: number) => {
    seats[index]?.push(groups.length);
    groups.push({ leader: index, lanes: [[index]] });
  };
  const gap = (before: number) => {
    for (const index of floats) {
      // Written just ahead of the next fixed block: this gap is where it belongs.
      if (index < before && home[index] === 0) home[index] = groups.length + 1;
      seat(index);
    }
  };
  plan.blocks.forEach((_, index) => {
    if (leaders[index] !== index || floats.includes(index)) return;
    gap(index);
    const members = plan.blocks.flatMap((_, other) => (leaders[other] === index && other !== index ? [other] : []));
    for (const member of [index, ...members]) {
      seats[member]?.push(groups.length);
      home[member] = groups.length + 1;
    }
    groups.push({ leader: index, lanes: lanesOf(plan, [index, ...members]) });
  });
  gap(plan.blocks.length);
  return { groups, seats, home: home.map((group) => Math.max(0, group - 1)) };
}

/** Splits blocks that run at the same time into lanes; who shares a presenter or bay, directly or in turn, shares a lane. */
function lanesOf(plan: Plan, members: readonly number[]): number[][] {
  const lanes: number[][] = [];
  for (const member of members) {
    const touching = lanes.filter((lane) => lane.some((other) => sharedNeed(plan, member, other) !== undefined));
    const merged = [...touching.flat(), member].toSorted((a, b) => a - b);
    const first = lanes.findIndex((lane) => touching.includes(lane));
    const rest = lanes.filter((lane) => !touching.includes(lane));
    rest.splice(first === -1 ? rest.length : first, 0, merged);
    lanes.splice(0, lanes.length, ...rest);
  }
  const [leader = 0] = members;
  return lanes.toSorted((a, b) => Number(b.includes(leader)) - Number(a.includes(leader)));
}

/** The presenter or bay that two blocks both need; nothing when they can run at the same time. */
export function sharedNeed(plan: Plan, one: number, other: number): string | undefined {
  const a = plan.blocks[one];
  const b = plan.blocks[other];
  if (a?.presenter !== undefined && a.presenter === b?.presenter) return a.presenter;
  return a?.bay !== undefined && a.bay === b?.bay ? a.bay : undefined;
}

/** When each given block starts and ends, s from the start of the class, and when the last one ends. */
export interface Timetable {
  readonly blocks: readonly ({ readonly start: number; readonly end: number } | undefined)[];
  readonly end: number;
}

/** The earliest timetable of a choice: blocks in order, waiting only for those with a fixed time or window. */
export function timetable(plan: Plan, { groups }: Layout, choice: Choice): Timetable {
  const blocks: ({ start: number; end: number } | undefined)[] = plan.blocks.map(() => undefined);
  let at = 0;
  groups.forEach(({ lanes }, group) => {
    const treatmentIn = (block: number) => givenIn(plan, choice, block, group);
    let start = at;
    for (const lane of lanes) {
      let offset = 0;
      for (const block of lane) {
        const treatment = treatmentIn(block);
        if (!treatment) continue;
        start = Math.max(start, (plan.blocks[block]?.window?.earliest ?? 0) - offset);
        offset += treatment.seconds;
      }
    }
    for (const lane of lanes) {
      let moment = start;
      for (const block of lane) {
        const treatment = treatmentIn(block);
        if (!treatment) continue;
        blocks[block] = { start: moment, end: moment + treatment.seconds };
        moment += treatment.seconds;
        at = Math.max(at, moment);
      }
    }
  });
  return { blocks, end: at };
}
