import type { ShopClass } from '../../model/index.ts';
import { plural } from '../../read/index.ts';
import { mean } from '../plan/estimate.ts';
import { layOut, timetable } from '../plan/layout.ts';
import type { PartLookup } from '../plan/part-times.ts';
import { type Choice, givenAs, type Plan } from '../plan/plan.ts';
import {
  type LastTurn,
  lastTurn,
  roomInTurns,
  rotationsOf,
  type StationsWritten,
  stationTime,
} from '../plan/stations.ts';
import { headCount, toPlan } from '../plan/to-plan.ts';
import { lengthText, titleOf } from '../plan/words.ts';
import type { Solver } from './linear.ts';
import { solve } from './solve.ts';
import type { Advice } from './ways-out.ts';

/** How a hands-on block of a plan is turned round, and what one attendee more or fewer would change. */
export interface TurnsOfBlock {
  readonly block: number;
  readonly stations: StationsWritten;
  readonly attendees: number;
  readonly turns: number;
  /** Sizes of the groups, as even as they can be, largest first. */
  readonly groups: readonly number[];
  /** Time of one turn with the change to it, s. */
  readonly turnSeconds: number;
  /** The attendee who made the last turn necessary, and what that costs. */
  readonly last?: LastTurn & { readonly costSeconds: number };
  /** The first attendee who would make one more turn necessary. */
  readonly next: number;
}

/** The hands-on blocks at stations that a plan gives. */
export function turnsOf(shopClass: ShopClass, plan: Plan, choice: Choice): readonly TurnsOfBlock[] {
  const attendees = headCount(shopClass);
  if (attendees === undefined) return [];
  return plan.blocks.flatMap((_, index): TurnsOfBlock[] => {
    const id = givenAs(plan, choice, index)?.id;
    const treatment = shopClass.blocks[index]?.treatments.find((one) => one.id === id);
    if (!treatment?.stations || treatment.minutes !== undefined) return [];
    const { stations } = treatment;
    const turns = rotationsOf(stations, attendees);
    const turnSeconds = mean(stationTime(stations, turns)) - (turns > 1 ? mean(stationTime(stations, turns - 1)) : 0);
    const last = lastTurn(stations, attendees);
    const groups = Math.ceil(attendees / stations.group);
    return [
      {
        block: index,
        stations,
        attendees,
        turns,
        turnSeconds,
        groups: Array.from({ length: groups }, (_, i) => Math.ceil((attendees - i) / groups)),
        ...(last && { last: { ...last, costSeconds: turnSeconds } }),
        next: roomInTurns(stations, attendees) + 1,
      },
    ];
  });
}

/** Larger groups or more stations that do without the last turn, each with the time it wins for the class as a whole. */
export function regroupings(
  shopClass: ShopClass,
  parts: PartLookup,
  plan: Plan,
  choice: Choice,
  solver?: Solver,
): readonly Advice[] {
  const layout = layOut(plan);
  const { end } = timetable(plan, layout, choice);
  return turnsOf(shopClass, plan, choice).flatMap(({ block, stations, last }) => {
    if (!last) return [];
    const { group, count } = last;
    const changes = [
      ...(group !== undefined && group <= 2 * stations.group
        ? [{ change: { group }, text: largerGroup(stations, last, group) }]
        : []),
      ...(count !== undefined && count <= 2 * stations.count
        ? [{ change: { count }, text: `set up ${plural(count - stations.count, 'more station')}` }]
        : []),
    ];
    return changes.flatMap(({ change, text }): Advice[] => {
      const changed = toPlan(withStations(shopClass, block, { ...stations, ...change }), parts).plan;
      const savesSeconds = end - timetable(changed, layout, choice).end;
      if (savesSeconds < 1) return [];
      return [
        {
          kind: 'regroup',
          text: `in ${titleOf(plan, block)} ${text}: saves ${lengthText(savesSeconds)}`,
          savesSeconds,
          worthLost: 0,
          enough: solver === undefined || typeof solve(changed, solver) !== 'string',
        },
      ];
    });
  });
}

/** How a turn is saved by larger groups: one more at some stations where that is enough, otherwise larger groups. */
function largerGroup(stations: StationsWritten, { turns, over }: LastTurn, group: number): string {
  const places = stations.visit === 'every' ? turns - 1 : (turns - 1) * stations.count;
  if (group !== stations.group + 1 || over > places)
    return `let ${group} work at a station instead of ${stations.group}`;
  return over === 1 ? `let ${group} work at one station` : `let ${over} groups be of ${group}`;
}

function withStations(shopClass: ShopClass, block: number, stations: StationsWritten): ShopClass {
  return {
    ...shopClass,
    blocks: shopClass.blocks.map((written, index) =>
      index === block
        ? { ...written, treatments: written.treatments.map((one) => (one.stations ? { ...one, stations } : one)) }
        : written,
    ),
  };
}
