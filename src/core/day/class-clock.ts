/**
 * What the machine's clocks show at one moment.
 *
 * `steady` counts seconds and is never set, but begins anew when the machine does; `run` tells one such count from
 * another. `wall` is what people read, in milliseconds since 1970, and may be set by anybody.
 */
export interface ClockReading {
  readonly run: string;
  readonly steady: number;
  readonly wall: number;
}

/** A reading, and what the clock of the class showed then: s from its planned start. */
export interface ClockAnchor extends ClockReading {
  readonly at: number;
}

/**
 * What the clock of a class shows.
 *
 * Within one run of the machine only the steady clock counts, so that a clock that is set, by hand or by a server,
 * moves nothing. After the machine was started anew (a dead battery) the wall clock is all that is left to ask; one
 * that was set back shows no time before the last thing that was written down.
 *
 * @returns s from the planned start
 */
export function classTime(anchor: ClockAnchor, now: ClockReading): number {
  const steady = now.steady - anchor.steady;
  if (now.run === anchor.run && steady >= 0) return anchor.at + steady;
  return anchor.at + Math.max(0, (now.wall - anchor.wall) / 1000);
}

/**
 * How much further the wall clock has gone since an earlier reading than the count of seconds, s. More than the wear of
 * a clock means that it was set, or that the machine slept and the count stood still: nobody but people can tell.
 *
 * @returns nothing to go by, 0, where the two readings are of two counts
 */
export function clockGap(before: ClockReading, now: ClockReading): number {
  return before.run === now.run ? (now.wall - before.wall) / 1000 - (now.steady - before.steady) : 0;
}

/** How far from its planned start a class may begin and still be the class that was planned, ms. A judgement. */
const NEAR_ITS_TIME = 3 * 3_600_000;

/**
 * The first anchor. A class that begins near its time is as early or late as it is; on another day, as when the plan is
 * tried, its clock begins with it.
 *
 * @param startsAt planned, milliseconds since 1970
 */
export function firstAnchor(startsAt: number, now: ClockReading): ClockAnchor {
  const off = now.wall - startsAt;
  return { ...now, at: Math.abs(off) <= NEAR_ITS_TIME ? off / 1000 : 0 };
}

/** After so long without an event a class is over, and the next one of that name is another, s. A judgement. */
const LONG_AGO = 12 * 3600;

/** True where what was written down last is of another class, long over. */
export function isLongAgo(anchor: ClockAnchor, now: ClockReading): boolean {
  return (
    (now.run !== anchor.run && (now.wall - anchor.wall) / 1000 > LONG_AGO) ||
    classTime(anchor, now) - anchor.at > LONG_AGO
  );
}
