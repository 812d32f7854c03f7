import { TICKS_PER_SECOND, twoDigits } from '../time/index.ts';

/**
 * A moment as WebVTT writes it, `hh:mm:ss.ttt`, hours of two or more digits; to the nearest millisecond.
 *
 * @param moment ticks
 * Source: W3C WebVTT, "WebVTT timestamp".
 */
export function webvttTime(moment: number): string {
  const ms = Math.round(moment / (TICKS_PER_SECOND / 1000));
  const seconds = Math.floor(ms / 1000);
  return `${twoDigits(Math.floor(seconds / 3600))}:${twoDigits(Math.floor(seconds / 60) % 60)}:${twoDigits(seconds % 60)}.${String(ms % 1000).padStart(3, '0')}`;
}
