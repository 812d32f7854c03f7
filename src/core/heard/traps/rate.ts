import { wordAt } from '../tokens.ts';
import type { InContext } from './trap.ts';

const COUNTED_PER = /^(teeth|mil|thou|points|threads|strokes|turns|millimet(re|er)s|inches|degrees|grams|drops|links)$/;
const PER = /^(per|a|an|each|every|\/)$/;
const RATE_OF =
  /^(minute|min|hour|hr|h|second|sec|s|gallon|litre|liter|l|foot|metre|meter|m|inch|millimetre|millimeter|mm|thou|mile|kilometre|kilometer|km|kg|rev|revolution|day)$/;
/** Of these `every` and `each` say when, and `a` says how often. */
const CALENDAR = /^(week|month|year|season|shift)$/;
/** What a rate may count in tens: per thousand miles. */
const MANY = /^(hundred|thousand|\d+)$/;
/** A quantity per something is another kind of quantity: revolutions a minute, millimetres per metre, hours a day. */
export function isRate({ pieces, number, unit, to }: InContext): boolean {
  if (pieces[number.from - 1]?.lower === 'per') return true;
  // `eighteen mil a metre`, `three teeth an inch`.
  if (number.article && COUNTED_PER.test(wordAt(pieces, number.from - 1))) return true;
  const [per, of] = [wordAt(pieces, to), wordAt(pieces, to + 1)];
  // `three ounces to the gallon`: how much goes in.
  if (unit.kind === 'volume' && per === 'to') return false;
  if (per === 'to' && of === 'the' && RATE_OF.test(wordAt(pieces, to + 2))) return true;
  if (!PER.test(per)) return false;
  if (CALENDAR.test(of)) return per !== 'every' && per !== 'each';
  if (unit.kind === 'length' && /^(turn|click)$/.test(of)) return true;
  if (per === 'per' && MANY.test(of)) return true;
  if (!RATE_OF.test(of)) return false;
  // `swap it for two minutes every day`, `10 km each hour of the test`: how often, still a length of time or way.
  return !(unit.kind === 'time' || unit.kind === 'distance') || (per !== 'every' && per !== 'each');
}
