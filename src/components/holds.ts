import type { Holds } from '../core/pages/index.ts';

/** Attributes that say which machines something on a page holds for: an attendee who has named theirs sees only its own. */
export function holds({ machine, from, to, variants, regions }: Holds): Record<string, string | undefined> {
  return {
    'data-machine': machine,
    'data-from': String(from),
    'data-to': String(to),
    'data-variants': variants?.join(' '),
    'data-regions': regions?.join(' '),
  };
}
