import type { Locale } from '../locale/index.ts';
import type { Shop, ShopInfo } from '../model/index.ts';

/** The languages of a shop's site, the one at its root first. */
export function languagesOf({ languages, language }: Pick<ShopInfo, 'languages' | 'language'>): [string, ...string[]] {
  const [first = language ?? 'en', ...others] = languages ?? [];
  return [first, ...others];
}

/** Papers of whoever leads a class, and the page it is led by: made in the language at the root only. */
const MADE_ONCE = /^classes\/[^/]+\/(?:run-sheet|kit-list|present)\//;

/** True where the page at a path is the same for every language. */
export function madeOnce(path: string): boolean {
  return MADE_ONCE.test(path);
}

/** A shop as pages in one of its languages show it. */
export function inLanguage(shop: Shop, locale: Locale): Shop {
  return { ...shop, locale };
}
