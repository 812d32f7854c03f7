import { unitOf } from '../spec/index.ts';
import type { NumberRead } from './number.ts';
import type { Said } from './said.ts';
import type { Token } from './tokens.ts';
import { type UnitHeard, unitHeard } from './unit-spoken.ts';

/** Ways a thing is measured along. */
const ALONG = /^(thick|wide|deep|high|long|tall|across|proud)$/;
/** How much is taken off. */
const TAKEN_OFF = /^\W*(at a time|per pass|a pass|each pass|off|proud|oversized?|undersized?)\b/;
const TURNS =
  /\b(turns?|spins?|spinning|idles?|idling|revs|revving|revved)( \w+)? (at|to|around|about|up to|near)( about| around)?\s+$/;
/** Nothing said to turn at fewer is said in revolutions a minute without them. */
const SLOWEST = 400;

/**
 * The unit that a trade understands without its being said: `three sixteenths thick` is of an inch, a saw that idles at
 * twenty-eight hundred does so a minute.
 */
export function unitUnderstood(pieces: readonly Token[], low: NumberRead, said: Said): UnitHeard | undefined {
  const next = pieces[low.to];
  const parts = low.denominator ?? 0;
  if (
    ([8, 16, 32, 64].includes(parts) && ALONG.test(next?.lower ?? '')) ||
    (parts >= 16 && parts <= 64 && TAKEN_OFF.test(said.after(low.to)))
  )
    return unitHeard(unitOf('length', 'in'), low.to, true);
  const ends = !next || next.type === 'mark' || /^(and|but|or|so|with|when|in|on|at|for|if|cold|hot)$/.test(next.lower);
  if (low.value >= SLOWEST && Number.isInteger(low.value) && ends && TURNS.test(said.before))
    return unitHeard(unitOf('turning-speed', 'rpm'), low.to, true);
  return undefined;
}
