import { placeOf, type Spec } from '../../model/index.ts';
import {
  aKind,
  convert,
  kindInWords,
  type Part,
  partsOf,
  spanInWords,
  USUAL,
  writtenAmount,
} from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { keyOf } from './neighbours.ts';

export default rule({
  id: 'value-unlikely',
  severity: 'warning',
  why: 'A figure far outside what such things usually measure has a slipped point, or a unit that is not meant.',
  bad: replaceIn(
    'specs/tarn-420.yaml',
    '    min: 30\n    max: 40\n    unit: mm',
    '    min: 30\n    max: 40\n    unit: m',
  ),
  says: '20:10 chain-slack: 30–40 m is unusual for “slack”, a length, which is about 0.5 to 120 mm',
  good: replaceIn(
    'specs/tarn-420.yaml',
    '    min: 30\n    max: 40\n    unit: mm',
    '    min: 3\n    max: 4\n    unit: cm',
  ),

  *machine({ machines }) {
    for (const { specs } of machines)
      for (const spec of specs)
        for (const part of spec.quantity ? partsOf(spec.quantity) : []) {
          const said = unlikely(spec, part);
          if (!said) continue;
          yield {
            place: placeOf(spec, keyOf(spec)),
            message: `${spec.id}: ${writtenAmount(part.amount, part.kind)} ${said}`,
            help: 'compare figure and unit with the source; if they are right, leave them',
          };
          break;
        }
  },
});

function unlikely({ title, id, written }: Spec, { kind, amount }: Part): string | undefined {
  const values = [amount.nominal, amount.min, amount.max].filter((value) => value !== undefined);
  if ((kind === 'length' || kind === 'angle') && Math.max(...values) < 0)
    return `is a ${kindInWords(kind)} below nought`;
  if (kind === 'length' && amount.nominal === undefined && values.some((value) => value < 0))
    return 'reaches below nought';
  // What is done every so often has a usual span; how long a thing takes has none.
  if (kind === 'time' && written.kind !== 'interval') return undefined;
  const inTitle = new Set(`${title} ${id}`.toLowerCase().match(/\p{L}+/gu));
  for (const { words, of, from, to, unit } of USUAL) {
    if (of !== kind || (words !== undefined && !words.split(' ').every((each) => inTitle.has(each)))) continue;
    const inUnit = values.map((value) => convert(value, kind, amount.unit, unit));
    // Of a tolerance band only the value itself is judged: a limit of nought is no slip.
    const judged = amount.nominal === undefined ? inUnit : inUnit.slice(0, 1);
    if (Math.max(...judged) >= from && Math.max(...judged) <= to) return undefined;
    return `is unusual for ${words === undefined ? '' : `“${words}”, `}${aKind(kind)}, which is about ${spanInWords({ from, to, unit })}`;
  }
  return undefined;
}
