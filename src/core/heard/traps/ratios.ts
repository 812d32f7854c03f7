import type { InContext } from './trap.ts';

const ODDS =
  /^ (it['’]s|that['’]s|he['’]s|she['’]s|you['’]ll)\b|^\W*(chance|odds|bet|against|on\b(?=\W*$| that\b| favou?rite)|favou?rite|majority|vote|win|score|up\b)/;
const BET = /\b(odds|bet|chances?|won|lost|beat|voted|score|scored|games?)\b[^,;:]*$/;
const BY_THE_CLOCK =
  /\b(at|by|until|till|before|after|since|around|about|nearly|almost|it is|it['’]s|it was|time is)\s+$/;
const MIXED =
  /\b(mix\w*|(?:ran|run|runs) (?:it|them|everything|mine|his|hers)|oil|fuel|petrol|drinks|gas|ratio|gear\w*|reduction|epoxy|hardener|resin|drive)\b/;

/** `a three to one chance`, `it's ten to one`: odds, and the clock. */
export function isOddsOrClock({ number, unit, said, to, pieces }: InContext): boolean {
  if (unit.symbol !== ':1') return false;
  const next = said.after(to);
  if ((ODDS.test(next) && !MIXED.test(said.before)) || BET.test(said.before)) return true;
  const written = pieces[to - 1]?.text === ':1';
  return (
    !written &&
    /^(5|10|20|25|0\.25)$/.test(String(number.value)) &&
    BY_THE_CLOCK.test(said.before) &&
    !MIXED.test(`${said.before} ${next}`)
  );
}
