import { placeOf } from '../../model/index.ts';
import { convert, partsOf, unitsCompare, writtenAmount } from '../../spec/index.ts';
import { FAR_FROM_NEIGHBOUR } from '../likely.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { keyOf, middleOf, neighboursOf } from './neighbours.ts';

const history = (nominal: number) =>
  replaceIn(
    'specs/tarn-420.yaml',
    '    nominal: 98\n',
    `    history:\n      - {until: 2022-01-01, nominal: ${nominal}, unit: N·m}\n    nominal: 98\n`,
  );

export default rule({
  id: 'magnitude-unlikely',
  severity: 'warning',
  why: 'A decimal point that has slipped makes a value ten times what it was.',
  bad: history(9.4),
  says: '13:14 axle-nut: 98 ± 5 N·m is 10 times its former value until 2022-01-01, 9.4 N·m',
  good: history(60),

  *machine({ machines }) {
    for (const machine of machines)
      for (const spec of machine.specs) {
        const [own] = spec.quantity ? partsOf(spec.quantity) : [];
        const value = own && middleOf(own.amount);
        if (!own || value === undefined || own.kind === 'temperature') continue;
        for (const { part, name, builtOn } of neighboursOf(spec, machine)) {
          const other = middleOf(part.amount);
          if (
            part.kind !== own.kind ||
            other === undefined ||
            !unitsCompare(own.kind, part.amount.unit, own.amount.unit)
          )
            continue;
          const ratio = value / convert(other, part.kind, part.amount.unit, own.amount.unit);
          if (!(ratio >= FAR_FROM_NEIGHBOUR || (ratio > 0 && ratio <= 1 / FAR_FROM_NEIGHBOUR))) continue;
          yield {
            place: placeOf(spec, keyOf(spec)),
            builtOn,
            message: `${spec.id}: ${writtenAmount(own.amount, own.kind)} is ${times(ratio)} ${name}, ${writtenAmount(part.amount, part.kind)}`,
            help: 'compare both with their sources; look at the decimal point and the unit',
          };
          break;
        }
      }
  },
});

function times(ratio: number): string {
  const round = (value: number) => Number(value.toPrecision(2));
  return ratio >= 1 ? `${round(ratio)} times` : `1/${round(1 / ratio)} of`;
}
