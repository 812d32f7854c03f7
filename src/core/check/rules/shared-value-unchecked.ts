import { placeOf, type SharedCollection, type Spec } from '../../model/index.ts';
import { provenanceOf } from '../../programme/index.ts';
import { listWords, plural } from '../../read/index.ts';
import { type Finding, rule } from '../rule.ts';
import { KEY, shared } from './shared-sample.ts';

export default rule({
  id: 'shared-value-unchecked',
  severity: 'warning',
  why: 'You have to be able to ask the person who compared a value with the manual, and you cannot ask a stranger.',
  bad: shared(''),
  says: '2:5 1 value of tarn-values 1.0.0 comes from a signer nobody here knows, and nobody here has compared it',
  good: shared(`    key: ${KEY}\n`),

  *around(shop) {
    const strange = new Map<SharedCollection, Spec[]>();
    for (const { id, specs } of shop.machines)
      for (const spec of specs) {
        // Where nobody at all has compared it, that is told of every row alike.
        if (spec.written.withdrawn) continue;
        if (spec.written.checkedBy === undefined || spec.written.checkedOn === undefined) continue;
        const from = provenanceOf(shop, id, spec);
        if (from?.compared !== 'unchecked') continue;
        const { collection } = from;
        if (from.value === 'own') yield ownValue(spec, collection);
        else strange.set(collection, [...(strange.get(collection) ?? []), spec]);
      }
    for (const [collection, specs] of strange) yield strangeValues(collection, specs);
  },
});

function ownValue(spec: Spec, { name, version }: SharedCollection): Finding {
  return {
    ...(spec.written.critical ? { severity: 'error' as const } : {}),
    place: placeOf(spec, 'checkedBy'),
    unlessMistyped: [placeOf(spec)],
    message: `${spec.id} has a value of this shop’s own, and says who compared that of ${name} ${version}`,
    help: 'compare the value with its source, then set checkedBy and checkedOn',
  };
}

/** So many critical rows are named. */
const NAMED = 5;

/** One finding for all of a collection: they have one cause, and one telephone call mends it. */
function strangeValues(collection: SharedCollection, specs: readonly Spec[]): Finding {
  const { name, version, publisher } = collection;
  const critical = [...new Set(specs.filter(({ written }) => written.critical).map(({ id }) => id))];
  const more = critical.length > NAMED ? [`${critical.length - NAMED} more`] : [];
  const named = listWords([...critical.slice(0, NAMED), ...more]);
  const one = specs.length === 1;
  return {
    ...(critical.length > 0 ? { severity: 'error' as const } : {}),
    place: placeOf(collection),
    message: `${plural(specs.length, 'value')} of ${name} ${version} ${one ? 'comes' : 'come'} from a signer nobody here knows, and nobody here has compared ${one ? 'it' : 'them'}${critical.length > 0 ? `; critical: ${named}` : ''}`,
    help: `call ${publisher}, compare the key that \`liftside collections list\` prints, and write it under key:; or compare the rows with their source, and set checkedBy and checkedOn`,
  };
}
