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
    if (part !== 'specs') return ofThing(name, sides, choose, part === 'machine');
    const { value, collides, taken, kept, critical } = changeOfRows(sides, comparison);
    const chosen = choose(name);
    const uncompared = critical && !comparison && taken.some((row) => own(row, 'withdrawn') === undefined);
    if (value) values(name, { uncompared, taken: chosen === 'take' });
    if (!value && !collides) return { state: 'changed', write: taken, ...lines(sides) };
    return asked(chosen, sides, taken, kept);
  };
}

function ofThing(name: string, sides: Sides, choose: Choose, isValue: boolean): Decision {
  const [was, ours, theirs] = [sides.base, sides.here, sides.there].map(([thing]) => mapOf(thing));
  if (!was || !ours || !theirs || sides.there.length === 0) return { state: 'own' };
  if (sides.here.length === 0) return asked(choose(name), sides, sides.there, []);
  const { merged, collided, taken } = mergeKeys(was, ours, theirs);
  if (collided.length === 0 && !isValue)
    return taken.length === 0 ? { state: 'own' } : { state: 'changed', write: [merged as Thing], ...lines(sides) };
  const whole = withGroups(ours, theirs, (key) => taken.includes(key) || collided.includes(key));
  return asked(choose(name), sides, [whole as Thing], [(isValue ? ours : merged) as Thing]);
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
