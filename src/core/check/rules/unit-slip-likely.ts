import { placeOf } from '../../model/index.ts';
import { convert, likelySlip, partsOf, unitsCompare } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { formerParts, middleOf, partsBefore } from './neighbours.ts';

const history = (rows: string) =>
  replaceIn('specs/tarn-420.yaml', '    nominal: 98\n', `    history:\n      - ${rows}\n    nominal: 98\n`);

export default rule({
  id: 'unit-slip-likely',
  severity: 'warning',
  why: 'A value that is as far from its neighbour as two units are from each other was likely copied in the wrong one.',
  bad: history('{until: 2022-01-01, nominal: 72.3, unit: N·m}'),
  says: '13:14 axle-nut: 98 N·m is to its former value 72.3 N·m as a number of N·m is to one of lbf·ft',
  good: history('{until: 2022-01-01, nominal: 90, unit: N·m}'),

  *machine({ machines }) {
    for (const machine of machines)
      for (const spec of machine.specs) {
        const [part] = spec.quantity ? partsOf(spec.quantity) : [];
        if (!part) continue;
        const neighbours = [
          ...formerParts(spec).map((each) => ({ other: each.part, name: 'its former value', builtOn: [] })),
          ...partsBefore(spec, machine).map((each) => ({
            other: each.part,
            name: 'the row before it with',
            builtOn: each.builtOn,
          })),
        ];
        for (const { other, name, builtOn } of neighbours) {
          const [own, before] = [middleOf(part.amount), middleOf(other.amount)];
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
              builtOn,
              message: `${spec.id}: ${own} ${part.amount.unit} is to ${name} ${before} ${other.amount.unit} as a number of ${slip.meant} is to one of ${slip.taken}`,
              help: 'compare both with their sources; one of them may be in the other unit',
            };
        }
      }
  },
});
