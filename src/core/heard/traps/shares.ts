import type { InContext } from './trap.ts';

/** Of whom or of how many; of a voltage or a weight it is a limit. */
const OF_MANY =
  /^\W*of (the |this |my |your |our |all )?(time|job|work|people|folks|customers|you|us|them|these|those|all|everybody|cases|jobs|it\b(?=\W*$| is| was| comes)|(?:(?!the |my |your |its |this |that )\w+ )?(?!(?:glass|gas|this|its|was|has|always|plus|less|does|brass|mass|volts|amps|chains?)\b)[a-z-]{3,}s|[a-z-]+ is (?:just|only|down to|from|because|caused))\b/;
const OFF_OR_SURE =
  /^\W*(rule\b|off\b(?! (the|of|each|it))|sure|certain|positive|convinced|there|done|chance|likely|cheaper|discount|dearer|tip|my fault|your fault|cotton|recycled|better|worse|happy|behind you|on board|through (?:this|the|it)|of the way|agree|right|luck|skill|effort|guarantee[ds]?)\b/;
/** How full the battery of a thing is that nobody came to mend. */
const PHONE = /\b(phone|laptop|tablet|camera|mic)( battery)?( is|['’]s)( (down|up|now))?( to| at)?\s+$/;
const SURE_BEFORE = /\b(g[ai]ve(?:s|n)?(?: it| me| you)?|giving it|i agree|not|the other|promise you)\s+(a |your )?$/;

/** `ninety percent of leaks`, `fifteen percent off`: how many of them, and what is saved. */
export function isShareOfMany({ number, unit, said, to }: InContext): boolean {
  if (unit.symbol !== '%') return false;
  const next = said.after(to);
  // `take eighty percent of it`.
  if (/\b(?:take|use|allow|want|load)(?: only)? $/.test(said.before) && /^ of (?:it|that)\b/.test(next)) return false;
  // `eleven percent here, eleven and a half there`: at two places.
  if (/\bhere\b/.test(said.before) && /^\W*there\b/.test(next)) return false;
  // `nothing in life's a hundred percent`.
  if (number.value === 100 && /\b(?:nothing|nobody|no one)\b[^,;]*$/.test(said.before)) return true;
  return PHONE.test(said.before) || OF_MANY.test(next) || OFF_OR_SURE.test(next) || SURE_BEFORE.test(said.before);
}
