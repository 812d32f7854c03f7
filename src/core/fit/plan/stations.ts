import type { ShopClass } from '../../model/index.ts';
import { certain, type Estimate, fromMinutes, plus, times } from './estimate.ts';

export type StationsWritten = NonNullable<ShopClass['blocks'][number]['treatments'][number]['stations']>;

/**
 * How many turns it takes until everybody has worked; without a number of attendees, as many people as fit in one.
 *
 * Attendees make `ceil(attendees / group)` groups. Where each works at one station, that many equal jobs go over so
 * many equal machines: `ceil(groups / count)` turns. Where each works at every station, no group can be at two and no
 * station can hold two, so there are at least as many turns as stations and as groups; and so many are enough.
 * Source: D. König, Mathematische Annalen 77, 1916, on colouring the edges of a bipartite graph; in scheduling,
 * T. Gonzalez and S. Sahni, Journal of the ACM 23(4), 1976, the open shop with times of one unit.
 */
export function rotationsOf({ count, group, visit }: StationsWritten, attendees: number | undefined): number {
  const groups = Math.ceil((attendees ?? count * group) / group);
  return visit === 'every' ? Math.max(count, groups) : Math.max(1, Math.ceil(groups / count));
}

/** Time of so many turns and the changes between them. One pace for all: who is slow is slow every time. */
export function stationTime({ minutes, change = 0 }: StationsWritten, rotations: number): Estimate {
  return plus(times(fromMinutes(minutes), rotations), certain((rotations - 1) * change * 60));
}

/** Who made the last turn necessary, and what would do without it. */
export interface LastTurn {
  readonly turns: number;
  /** The first attendee who needs the last turn: one fewer would do without it. */
  readonly attendee: number;
  /** The smallest group size that does with a turn fewer, where one exists. */
  readonly group?: number;
  /** How many attendees are too many for a turn fewer. */
  readonly over: number;
  /** The fewest stations that do with a turn fewer; nothing where each attendee works at every station. */
  readonly count?: number;
}

/**
 * What the last turn hangs on. Nothing where there is one turn, or where the stations themselves ask for them all.
 *
 * @param attendees at least 1
 */
export function lastTurn(stations: StationsWritten, attendees: number): LastTurn | undefined {
  const turns = rotationsOf(stations, attendees);
  const turnsWith = (change: Partial<StationsWritten>, people = attendees) =>
    rotationsOf({ ...stations, ...change }, people);
  if (turns === 1 || turnsWith({}, 1) === turns) return undefined;
  let attendee = attendees;
  while (turnsWith({}, attendee - 1) === turns) attendee--;
  const sizes = Array.from({ length: Math.max(0, attendees - stations.group) }, (_, i) => stations.group + 1 + i);
  const group = sizes.find((size) => turnsWith({ group: size }) < turns);
  const counts = Array.from({ length: attendees }, (_, i) => stations.count + 1 + i);
  const count = stations.visit === 'every' ? undefined : counts.find((many) => turnsWith({ count: many }) < turns);
  return {
    turns,
    attendee,
    over: attendees - attendee + 1,
    ...(group !== undefined && { group }),
    ...(count !== undefined && { count }),
  };
}

/** The most attendees that the turns of so many still serve. */
export function roomInTurns({ count, group, visit }: StationsWritten, attendees: number): number {
  const turns = rotationsOf({ count, group, visit, minutes: 0 }, attendees);
  return visit === 'every' ? turns * group : turns * count * group;
}
