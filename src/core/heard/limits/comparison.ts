import type { SimpleKind } from '../../spec/index.ts';
import { HIGHER, LOWER, type Way, wayOf } from './degree.ts';

const THAN = "(?: (?!more\\b|less\\b|fewer\\b)[\\w'’-]+){0,3} than";
const OVER = `more than|in excess of|upwards of|(?<!\\b(?:mile|town|street|road) )north of|the far side of|the wrong side of|over|above|past|beyond|exceed(?:s|ing)?|topping|tops|${HIGHER}${THAN}`;
const UNDER = `less than|fewer than|shy of|short of|south of|this side of|the (?:safe|right) side of|under|below|beneath|${LOWER}${THAN}`;
const COMPARED = new RegExp(`\\b(${OVER}|${UNDER})[^\\w,]*$|(>=?|≥)\\s*$|(?:<=?|≤)\\s*$`);
const UNDER_OF_PLACE = /^(?:this side of|the (?:safe|right) side of)/;
const VAGUE = /\b(about|around|roughly|approximately|the|a|an|of|only|just|maybe)\s*$/;

/** What compares something with the number behind it: `never over`, `anything thinner than`. */
export interface Comparison {
  /** Which values it speaks of. */
  readonly way: Way;
  /** The words before it. */
  readonly lead: string;
}

/** The words before a number without `about the` and the like at their end. */
export const withoutVague = (before: string): string => before.replace(VAGUE, '').replace(/\s+$/, ' ');

/** The comparison that ends in front of a number, in small letters; nothing where none does. */
export function comparisonBefore(before: string, kind: SimpleKind): Comparison | undefined {
  const found = COMPARED.exec(before) ?? COMPARED.exec(withoutVague(before));
  if (!found) return undefined;
  const [, words, over] = found;
  const way =
    words === undefined
      ? over === undefined
        ? 'under'
        : 'over'
      : UNDER_OF_PLACE.test(words)
        ? 'under'
        : wayOf(words, kind);
  return { way, lead: before.slice(0, found.index) };
}
