import type { Spec } from '../core/model/index.ts';

/** Attributes that say which machines something on a page holds for: an attendee who has named theirs sees only its own. */
export function holds(
  machine: string,
  { years, written: { variants, regions } }: Spec,
): Record<string, string | undefined> {
  return {
    'data-machine': machine,
    'data-from': String(years.from),
    'data-to': String(years.to),
    'data-variants': variants?.join(' '),
    'data-regions': regions?.join(' '),
  };
}
