import type { Wording } from '../core/locale/index.ts';
import { TICKS_PER_SECOND, twoDigits } from '../core/time/index.ts';

/** A moment as a running clock shows it, `1:02:03`: whole seconds, rounded down; hours only when there are any. */
export function clockText(moment: number): string {
  const seconds = Math.floor(moment / TICKS_PER_SECOND);
  const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  return h > 0 ? `${h}:${twoDigits(m)}:${twoDigits(s)}` : `${m}:${twoDigits(s)}`;
}

/** A length of time in words, to the minute: `1 h 5 min`, `4 min`; `under a minute` below that. */
export function lengthText(length: number, t: Wording['t']): string {
  const minutes = Math.round(length / TICKS_PER_SECOND / 60);
  if (minutes === 0) return t('under a minute');
  const [h, m] = [Math.floor(minutes / 60), minutes % 60];
  return [h > 0 ? t('{h} h', { h }) : '', m > 0 || h === 0 ? t('{m} min', { m }) : ''].filter((part) => part).join(' ');
}
