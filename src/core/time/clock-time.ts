import { fail, ok, type Parsed } from './parsed.ts';
import { type Clock, TICKS_PER_SECOND, type Ticks, ticks } from './ticks.ts';

const WRITTEN = /^(?:(\d{1,3}):)?(\d{1,2}):(\d{2})(?:[.,](\d{1,9}))?$/;

/**
 * A time written `h:mm:ss(.fraction)` or `mm:ss(.fraction)`.
 *
 * @returns ticks, the nearest where the fraction is finer than a tick
 */
export function parseClockTime<C extends Clock>(text: string): Parsed<Ticks<C>> {
  const match = WRITTEN.exec(text);
  if (!match) return fail(`"${text}" is not a time`, 'a time reads h:mm:ss or h:mm:ss.fraction, like 0:03:10.5');
  const hours = Number(match[1] ?? 0);
  const minutes = Number(match[2]);
  const seconds = Number(match[3]);
  if (minutes > 59 || seconds > 59)
    return fail(
      `"${text}": ${minutes > 59 ? 'minutes' : 'seconds'} go from 0 to 59`,
      'minutes and seconds go from 00 to 59',
    );
  const fraction = Math.round(Number(`0.${match[4] ?? '0'}`) * TICKS_PER_SECOND);
  return ok(ticks<C>((hours * 3600 + minutes * 60 + seconds) * TICKS_PER_SECOND + fraction));
}

/**
 * A moment as `h:mm:ss.fff`, to the millisecond; the fraction is left out when it is zero.
 * Rounds to the nearest millisecond.
 */
export function printClockTime(moment: number): string {
  const ms = Math.round(moment / (TICKS_PER_SECOND / 1000));
  const seconds = Math.floor(ms / 1000);
  const fraction =
    ms % 1000 === 0
      ? ''
      : `.${String(ms % 1000)
          .padStart(3, '0')
          .replace(/0+$/, '')}`;
  return `${Math.floor(seconds / 3600)}:${twoDigits(Math.floor(seconds / 60) % 60)}:${twoDigits(seconds % 60)}${fraction}`;
}

/** A moment as `printClockTime` writes it, with a minus before it where it lies before the beginning. */
export function printSignedTime(moment: number): string {
  return `${moment < 0 ? '-' : ''}${printClockTime(Math.abs(moment))}`;
}

/** A whole number with a nought before it when it has one digit, as clocks and dates write it. */
export function twoDigits(count: number): string {
  return String(count).padStart(2, '0');
}
