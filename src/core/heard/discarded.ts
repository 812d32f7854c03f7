import type { Side } from './limits.ts';
import type { Said } from './said.ts';

const COMPARED =
  /\b(under|below|less than|(?:thinn|short|small|low|narrow|shallow|light|weak|slow)er than|down to|over|above|past|beyond|more than|(?:thick|wid|long|larg|bigg|great|deep|high)er than)\s+(?:(?:about|around|roughly|the|a)\s+)*$/;
/** What is done with a thing that is no longer good, or said of it. */
const NO_LONGER_GOOD =
  /\b(bin|binned|scrap|scrapped|chuck|chucked|toss|ditch|replac\w+|swap|swapped|condemn\w*|retire|reject|rejected|throw|goes in the bin|is done|are done|['’]s done|finished|worn( out)?|shot|toast|dead|no good|junk|(means|needs?|get|fit|wants?) (a )?new|tired|had it|time (to|for)|(send|goes?|take) (it |them )?back|not safe|unsafe|too (thin|short|low|small|far|weak|worn)|fails?|failed|out of spec|won['’]t (start|run|hold|cure|set|stick))\b/;
const THROWN_AWAY =
  /\b(bin|scrap|chuck|toss|ditch|replace|swap|condemn|retire|reject|worn( out)?|done|finished|shot|junk)\b[^.;]{0,60}$/;
/** Up to here it is fine: said of the good side. */
const NEGATED = /\b(not|never|no|don['’]t|doesn['’]t|isn['’]t|without|until|unless)\b[^,;:]{0,40}$/;

/** What grows as it wears, and what wears away. */
const GROWS =
  /\b(gaps?|clearances?|play|run-?out|bore|stretch\w*|slack|backlash|elongation|chain checker|chain wear|wear gauge|moisture|leak-?down|drop)\b/;
const SHRINKS = /\b(pads?|linings?|treads?|thickness|cutters?|teeth|brushes|disc|rotor|diameter)\b/;
const LAST_SIZE =
  /^\W*(is|was|being) (the|your|its|our) (reject|scrap|discard|throw-?away)( (size|limit|mark|point|figure))?\b/;

/** `at half a percent, swap it`, `is the reject size`: which way a thing wears says which side is good. */
function lastOfAWear(before: string, rest: string): Side | undefined {
  if (!LAST_SIZE.test(rest) && !(/\bat (about )?$/.test(before) && NO_LONGER_GOOD.test(rest))) return undefined;
  return GROWS.test(before) ? 'max' : SHRINKS.test(before) ? 'min' : undefined;
}

/**
 * The side that is good where a value is told by what is thrown away: `below four millimetres, bin it` leaves at least
 * four.
 */
export function sideKept({ before, after }: Said, to: number): Side | undefined {
  const compared = COMPARED.exec(before);
  if (!compared) return lastOfAWear(before, after(to).slice(0, 70));
  if (NEGATED.test(before.slice(0, compared.index))) return undefined;
  const rest = after(to).slice(0, 70);
  if (!NO_LONGER_GOOD.test(rest) && !THROWN_AWAY.test(before.slice(0, compared.index))) return undefined;
  return /^(under|below|less|thinn|short|small|low|narrow|shallow|light|weak|slow|down)/.test(compared[1] ?? '')
    ? 'min'
    : 'max';
}
