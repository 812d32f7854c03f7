import { cssString } from '../../core/pages/index.ts';
import { t } from '../page/words.ts';

/** The middle of a sheet's foot as CSS content: the day, the machine, and which sheet of how many it is. */
export function sheetMiddle(day: string, machine: string): string {
  return `${cssString(t('Printed {day} for {machine}', { day, machine }))} "\\a " counter(page) " / " counter(pages)`;
}
