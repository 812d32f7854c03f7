import {
  type Choose,
  type Decide,
  type Decision,
  differing,
  equal,
  mapOf,
  own,
  type Sides,
  type Thing,
} from '../pack/index.ts';
import { mergeKeys, withGroups } from './merge-keys.ts';
import { type Comparison, changeOfRows } from './merge-rows.ts';

/**
 * By three versions: what only the publisher has changed is taken, what only the shop has changed is the shop's own and
 * stays, what both have changed differently is a choice; and so is every value, whoever changed it.
 *
 * @param values told of each spec whose value changes or may change, by name
 */
export function decideByBase(
  choose: Choose,
  comparison: Comparison | undefined,
  values: (name: string, change: { readonly uncompared: boolean; readonly taken: boolean }) => void,
): Decide {
  return (name, sides, part) => {
    const { base, here, there } = sides;
    if (base.length === 0 && here.length === 0) return { state: 'new', write: there };
    if (equal(here, there)) return { state: 'same' };
    if (base.length > 0 && equal(base, there)) return { state: 'own' };
    if (part !== 'specs') {
      const thing = ofThing(name, sides, choose, part === 'machine');
      if (thing.asks) values(name, { uncompared: false, taken: false });
      return thing.decision;
    }
    const { value, collides, taken, kept, critical } = changeOfRows(sides, comparison);
    const chosen = choose(name);
    const uncompared = critical && !comparison && taken.some((row) => own(row, 'withdrawn') === undefined);
    if (value) values(name, { uncompared, taken: chosen === 'take' });
    if (!value && !collides) return { state: 'changed', write: taken, ...lines(sides) };
    return asked(chosen, sides, taken, kept);
  };
}

/** What was measured at a shop's own tool, or keeps people from harm: nobody else changes it unasked. */
const MEASURED = new Set(['range', 'resolution', 'lever', 'extension', 'amount', 'hazard', 'signal', 'replace']);

function ofThing(
  name: string,
  sides: Sides,
  choose: Choose,
  isMachine: boolean,
): { readonly decision: Decision; readonly asks: boolean } {
  const plain = (decision: Decision) => ({ decision, asks: false });
  const [was, ours, theirs] = [sides.base, sides.here, sides.there].map(([thing]) => mapOf(thing));
  if (!was || !ours || !theirs || sides.there.length === 0) return plain({ state: 'own' });
  if (sides.here.length === 0) return plain(asked(choose(name), sides, sides.there, []));
  const { merged, collided, taken } = mergeKeys(was, ours, theirs);
  const asks = isMachine || taken.some((key) => MEASURED.has(key));
  if (collided.length === 0 && !asks)
    return plain(
      taken.length === 0 ? { state: 'own' } : { state: 'changed', write: [merged as Thing], ...lines(sides) },
    );
  const whole = withGroups(ours, theirs, (key) => taken.includes(key) || collided.includes(key));
  return { decision: asked(choose(name), sides, [whole as Thing], [(asks ? ours : merged) as Thing]), asks };
}

function asked(chosen: ReturnType<Choose>, sides: Sides, taken: readonly Thing[], kept: readonly Thing[]): Decision {
  const told = { state: 'differs', ...lines(sides) } as const;
  if (chosen === 'take') return { ...told, write: taken };
  return chosen === 'keep' && !equal(kept, sides.here) ? { ...told, write: kept } : told;
}

function lines({ here, there }: Sides): Pick<Decision, 'here' | 'there'> {
  return {
    here: here.length === 0 ? '(not here)' : there.length === 0 ? '(as it stands)' : differing(here, there),
    there: there.length === 0 ? '(taken away)' : differing(there, here),
  };
}
