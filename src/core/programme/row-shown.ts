import { ENGLISH, type Locale, wording } from '../locale/index.ts';
import type { Spec } from '../model/index.ts';
import { type Shown, type System, showQuantity } from '../spec/index.ts';

/**
 * A row's value as it is shown: in the shop's units; of a withdrawn one the words that say so; nothing where its numbers
 * make no sense.
 */
export function rowShown(
  { quantity, written }: Spec,
  units: readonly System[] | undefined,
  locale: Locale = ENGLISH,
): Shown | undefined {
  if (written.withdrawn) return { primary: wording(locale).t('no value: withdrawn') };
  return quantity && showQuantity(quantity, units, locale);
}
