import { cssString } from '../../core/pages/index.ts';

/** The middle of a sheet's foot as CSS content: the day, the machine, and which sheet of how many it is. */
export function sheetMiddle(day: string, machine: string): string {
  return `${cssString(`Printed ${day} for ${machine}`)} "\\a " counter(page) " / " counter(pages)`;
}
