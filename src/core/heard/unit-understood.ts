import { unitOf } from '../spec/index.ts';
import type { NumberRead } from './number.ts';
import type { Said } from './said.ts';
import type { Token } from './tokens.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

/** Ways a thing is measured along, and from what. */
const ALONG =
  /^(thick|wide|deep|high|long|tall|across|proud|shy|above|below|past|inside|outside|short|shallow|lower|higher|longer|shorter|thicker|thinner|wider|narrower|oversized?|undersized?)$/;
/** How much is taken off, or is left. */
const TAKEN_OFF =
  /^\W*(at a time|per (pass|side|end)|a (pass|side)|each (pass|side|end|way)|off|proud|from (the|each|either|its)|(of|up|down|in|out) (the|each)|(of [\w'’-]+( [\w'’-]+)? )?(left|remaining|showing|to go))\b/;
/** `of play`, `of material`: what is measured by it. */
const OF_LENGTH =
  /^\W*of (\w+ )?(play|slack|clearance|gap|travel|movement|lift|overhang|stickout|reveal|slop|deflection|runout|material|meat|stock|tread|lining|tooth|cutter|wood|thread|exposed|overlap|set-?back)\b/;
/** Someone does it by so much: `raise it an eighth`, `no more than a sixteenth`. */
const BY_SO_MUCH =
  /\b(by|about|than|within|only|just|at least|at most|another|take|taking|leave|raise|lower|want|maybe|roughly|under|over|to)( a| an| the)? ?$/;
const TURNS =
  /\b(turns?|spins?|spinning|idles?|idling|idle|ticks? over|revs?|revving|revved|runs?|running|governed|governor|tops? out|maxe[sd] out|wide open|full throttle|flat out|redlines?|lathe|router|spindle|drill press|cutterhead|grinder|speed|tach|tachometer)\b(?: (?!years?\b|years?\b|since\b)[\w'’-]+,?){0,6}? (?:is |are |at|to|around|about|near|down to|up to|like|says|reads|of|for)(?: (?:at|about|around|nearly|roughly|like|maybe))*\s*$/;
/** Nothing said to turn at fewer is said in revolutions a minute without them. */
const SLOWEST = 400;
const ENDS =
  /^(and|but|or|so|with|when|while|in|on|at|for|if|cold|hot|before|after|then|now|it|you|we|i|no|max|maximum|tops|flat|wide|unloaded|under|without|give|plus|the|as)$/;

/**
 * The unit that a trade understands without its being said: `three sixteenths thick` is of an inch, a saw that idles at
 * twenty-eight hundred does so a minute.
 */
export function unitUnderstood(pieces: readonly Token[], low: NumberRead, said: Said): UnitHeard | undefined {
  const next = pieces[low.to];
  const parts = low.denominator ?? 0;
  const rest = said.after(low.to);
  const ends = !next || next.type === 'mark' || ENDS.test(next.lower);
  if (
    ([8, 16, 32, 64].includes(parts) &&
      !THING.test(said.before) &&
      (ALONG.test(next?.lower ?? '') ||
        TAKEN_OFF.test(rest) ||
        OF_LENGTH.test(rest) ||
        (ends && BY_SO_MUCH.test(said.before)))) ||
    (parts >= 16 && parts <= 64 && TAKEN_OFF.test(rest)) ||
    (parts === 4 && /^(thick|wide|deep|long|tall|above|below)$/.test(next?.lower ?? '') && !TURNED.test(said.before))
  )
    return unitHeard(unitOf('length', 'in'), low.to, true);
  if (ends && low.value >= 1 && low.value <= 90 && !low.article && TILTED.test(said.before))
    return unitHeard(unitOf('angle', '°'), low.to, true);
  const year = low.figures && low.value >= 1950 && low.value <= 2040;
  if (low.value >= SLOWEST && Number.isInteger(low.value) && !year && ends && TURNS.test(said.before))
    return unitHeard(unitOf('turning-speed', 'rpm'), low.to, true);
  return undefined;
}
/** `tilt it over to twenty-two and a half`. */
const TILTED =
  /\b(tilt(?:s|ed|ing)?|bevel|mitre|miter)(?: (?!(?:click|notch|stop|hole|step|position|number)s?\b)[\w'’-]+){0,5} (?:to|at|is|reads|says)(?: (?:about|around|exactly))?\s*$/;
/** What is picked out by its size. */
const THING = /\b(the|that|this|my|your|size|grab|use|using|number)\s+$/;
/** Parts of a turn. */
const TURNED = /\b(turn|turns|turned|screw|back it|wind|unscrew|tighten)\b/;
