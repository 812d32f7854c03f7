import { twoDigits } from '../../core/time/index.ts';
import { t } from '../page/words.ts';

/** What is left of a block, as a room reads it from afar. */
export function minutesLeft(left: number): { figure: string; unit: string } {
  if (left < 0) return { figure: `+${Math.floor(-left / 60)}`, unit: t('min over') };
  if (left < 60) return { figure: `${Math.ceil(left)}`, unit: t('s left') };
  return { figure: `${Math.ceil(left / 60)}`, unit: t('min left') };
}

/** Minutes ahead or behind, in words. */
export function behindWords(behind: number): string {
  const minutes = Math.round(Math.abs(behind) / 60);
  if (minutes === 0) return 'on time';
  return `${minutes} min ${behind > 0 ? 'behind' : 'ahead'}`;
}

/** A stretch of time as m:ss; negative with a minus. */
export function stretch(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  return `${seconds < -0.5 ? '−' : ''}${Math.floor(whole / 60)}:${twoDigits(whole % 60)}`;
}

/** When a class ends and how likely in time, from a clock time in words such as `about 12:04`. */
export function endsWords(end: string, chance: number): string {
  return `ends ${end}, ${Math.round(chance * 100)} % in time`;
}
