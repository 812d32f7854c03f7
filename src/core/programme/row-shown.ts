import { ENGLISH, type Locale, wording } from '../locale/index.ts';
import type { Spec } from '../model/index.ts';
import { type Shown, type System, showQuantity } from '../spec/index.ts';

/**
 * A row's value as it is shown: in the shop's units; of a withdrawn one the words that say so; nothing where its numbers
 * make no sense.
 */
export function rowShown(row: Spec, units: readonly System[] | undefined, locale: Locale = ENGLISH): Shown | undefined {
  const inAll = known.get(row) ?? new Map<Locale, Map<string, Shown | undefined>>();
  known.set(row, inAll);
  const own = inAll.get(locale) ?? new Map<string, Shown | undefined>();
  inAll.set(locale, own);
  const key = units?.join(' ') ?? '';
  if (!own.has(key)) own.set(key, shownNow(row, units, locale));
  return own.get(key);
}

/** A row is never changed once it was read, and many pages show it. */
const known = new WeakMap<Spec, Map<Locale, Map<string, Shown | undefined>>>();

function shownNow(
  { quantity, written }: Spec,
  units: readonly System[] | undefined,
  locale: Locale,
): Shown | undefined {
  if (written.withdrawn) return { primary: wording(locale).t('no value: withdrawn') };
  return quantity && showQuantity(quantity, units, locale);
}
