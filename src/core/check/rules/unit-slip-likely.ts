import { placeOf, type Spec } from '../../model/index.ts';
import { type Amount, convert, likelySlip, type Part, partsOf, unitsCompare } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const history = (rows: string) =>
  replaceIn('specs/tarn-420.yaml', '    nominal: 98\n', `    history:\n      - ${rows}\n    nominal: 98\n`);

export default rule({
  id: 'unit-slip-likely',
  severity: 'warning',
  why: 'A value that is as far from its neighbour as two units are from each other was likely copied in the wrong one.',
  bad: history('{until: 2022-01-01, nominal: 72.3, unit: N·m}'),
  says: '13:14 axle-nut: 98 N·m is to its former value 72.3 N·m as a number of N·m is to one of lbf·ft',
  good: history('{until: 2022-01-01, nominal: 90, unit: N·m}'),

  *check({ machines }) {
    for (const { specs } of machines)
      for (const spec of specs)
        for (const { part, other, name } of neighboursOf(spec, specs)) {
          const [own, before] = [middle(part.amount), middle(other.amount)];
          if (own === undefined || before === undefined || other.kind !== part.kind) continue;
          if (!unitsCompare(part.kind, part.amount.unit, other.amount.unit)) continue;
          const slip = likelySlip(
            own,
            convert(before, part.kind, other.amount.unit, part.amount.unit),
            part.kind,
            0.01,
          );
          if (slip)
            yield {
              place: placeOf(spec, 'nominal'),
              message: `${spec.id}: ${own} ${part.amount.unit} is to ${name} ${before} ${other.amount.unit} as a number of ${slip.meant} is to one of ${slip.taken}`,
              help: 'compare both with their sources; one of them may be in the other unit',
            };
        }
  },
});

interface Neighbour {
  readonly part: Part;
  readonly other: Part;
  readonly name: string;
}

/** Former values of a row, and the rows of the same id before it in the table. */
function neighboursOf(spec: Spec, specs: readonly Spec[]): Neighbour[] {
  const [part] = spec.quantity ? partsOf(spec.quantity) : [];
  if (!part) return [];
  const former = spec.former.flatMap(({ quantity }) => (quantity ? [{ quantity, name: 'its former value' }] : []));
  const beside = specs
    .slice(0, specs.indexOf(spec))
    .flatMap(({ id, quantity }) => (id === spec.id && quantity ? [{ quantity, name: 'the row before it with' }] : []));
  return [...former, ...beside].flatMap(({ quantity, name }) => {
    const [other] = partsOf(quantity);
    return other ? [{ part, other, name }] : [];
  });
}

function middle({ nominal, min, max }: Amount): number | undefined {
  return nominal ?? (min !== undefined && max !== undefined ? (min + max) / 2 : (min ?? max));
}
