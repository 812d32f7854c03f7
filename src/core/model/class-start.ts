import type { ShopClass } from './shop.ts';

/** Day and time of a class as a text that sorts by them, YYYY-MM-DD hh:mm. */
export function classStart({ date, starts }: Pick<ShopClass, 'date' | 'starts'>): string {
  return `${date} ${starts}`;
}
