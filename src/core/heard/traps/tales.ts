import type { InContext } from './trap.ts';

const AWAY = /^\W{0,2}(away|off|from here|down the|up the|home|yesterday|today|to the next|out of town)\b/;
/** Ways ridden, and what an odometer has come to; `when you have done 500 miles` is an interval. */
const ON_THE_CLOCK = /^\W{0,2}on the (clock|odometer)\b/;
const RIDDEN =
  /\b(i|we|he|she|they)('ve|'d|'s)?( have| had| has)?( just| only| already)? (done|did|rode|ridden|drove|driven|covered|clocked|came|come|walked|pushed it)( over| about| almost| nearly| some| another| maybe)?\s+$/;
/** When it was ridden. */
const LAST_WEEK =
  /^\W*(?:on it )?(?:last (?:week|month|year|summer|winter|season)|yesterday|this (?:week|year|season|summer))\b/;
/** Somebody's own weight; a motorcycle is often a she. */
const SOMEBODY = /\b(i|you|he)('m|'re|'s| am| are| is| was| weigh| weighs)( about| around| only| over)?\s+$/;

const EACH_DAY = /^ (?:(?:every|each|a|on a|most) )+(?:\w+day|day|days|week|weeks|morning|weekend|month|year)s?\b/;

export function isWayTravelled({ unit, said, to }: InContext): boolean {
  if (unit.kind !== 'distance') return false;
  if (/\b(rode|ridden|drove|driven|did|covered)\b/.test(said.before) && LAST_WEEK.test(said.after(to))) return true;
  // `she does sixty miles every Sunday`.
  if (
    /\b(?:i|he|she|we|they)(?:['’]ll)? (?:do|does|rides?|drives?|walks?|commutes?) (?:about |over )?$/.test(
      said.before,
    ) &&
    EACH_DAY.test(said.after(to))
  )
    return true;
  return (
    AWAY.test(said.after(to)) ||
    ON_THE_CLOCK.test(said.after(to)) ||
    (RIDDEN.test(said.before) && !/^ on (?:that|this|these|it|them|one|a|the same)\b/.test(said.after(to)))
  );
}

/** `I'm ninety-five kilos, so`: somebody's weight that decides something. */
const DECIDES =
  /^(?: (?:with|in|and|without) [^,;]{1,30})?,? (?:so\b|and (?:that|the|i|we|it|so)\b|somebody|which means)/;
const MORE_THAN_ME = /\b(?:more|less|heavier|lighter) than (?:me|i am),? and i['’]m\s+$/;

export function isSomebodysWeight({ unit, said, to }: InContext): boolean {
  if (unit.kind === 'mass' && (DECIDES.test(said.after(to)) || MORE_THAN_ME.test(said.before))) return false;
  // `if you're over a hundred and ten kilos`: a limit.
  if (/\bif you['’]re (over|under|above|below) $/.test(said.before)) return false;
  return (unit.kind === 'mass' || unit.symbol === 'ft') && SOMEBODY.test(said.before);
}
