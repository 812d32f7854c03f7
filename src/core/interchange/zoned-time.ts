import { fail, ok, type Parsed } from '../time/index.ts';

/** A time of day somewhere, as a moment everywhere. */
export interface ZonedTime {
  readonly at: Date;
  /** The clocks went forward over it: the moment is as long after the jump as it was meant before. */
  readonly skipped: boolean;
}

/**
 * The moment of a wall-clock time in a time zone. A time that comes twice, when clocks go back, is the first of them.
 *
 * @param day YYYY-MM-DD
 * @param time hh:mm
 * @param zone IANA name; refused when the system does not know it
 */
export function zonedTime(day: string, time: string, zone: string): Parsed<ZonedTime> {
  const wanted = Date.parse(`${day}T${time}:00Z`);
  if (Number.isNaN(wanted)) return fail(`${day} ${time} is not a time`, 'write YYYY-MM-DD and hh:mm');
  const clock = wallClock(zone);
  if (!clock) return fail(`"${zone}" is not a time zone`, 'take an IANA name, such as Europe/Vienna');
  const offset = (moment: number) => clock(moment) - moment;
  const day1 = 86_400_000;
  const before = wanted - offset(wanted - day1);
  const after = wanted - offset(wanted + day1);
  const fits = [before, after].filter((moment) => clock(moment) === wanted);
  return ok({ at: new Date(fits.length > 0 ? Math.min(...fits) : before), skipped: fits.length === 0 });
}

/** What the clocks of a zone show at a moment, as if they were UTC. */
function wallClock(zone: string): ((moment: number) => number) | undefined {
  try {
    const format = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
      hourCycle: 'h23',
    });
    return (moment) => {
      const parts = new Map(format.formatToParts(new Date(moment)).map(({ type, value }) => [type, Number(value)]));
      const part = (type: Intl.DateTimeFormatPartTypes) => parts.get(type) ?? 0;
      return Date.UTC(part('year'), part('month') - 1, part('day'), part('hour'), part('minute'), part('second'));
    };
  } catch {
    return undefined;
  }
}
