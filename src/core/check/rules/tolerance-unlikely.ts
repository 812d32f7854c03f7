import { type Machine, type Place, placeOf, type Spec } from '../../model/index.ts';
import { type Amount, convert, type Part, partsOf, unitsCompare, writtenAmount } from '../../spec/index.ts';
import { LIMITS_APART, TOLERANCE_UNLIKE, TOLERANCE_WIDE, TORQUE_TIGHT } from '../likely.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { keyOf, neighboursOf } from './neighbours.ts';

export default rule({
  id: 'tolerance-unlikely',
  severity: 'warning',
  why: 'Inside a tolerance that is too wide a wrong value looks right; one that is too tight cannot be kept.',
  bad: replaceIn('specs/tarn-420.yaml', 'plusMinus: 5\n', 'plusMinus: 50\n'),
  says: '12:16 axle-nut: the tolerance of 98 ± 50 N·m is 51 % of the value',
  good: replaceIn('specs/tarn-420.yaml', 'plusMinus: 5\n', 'plusMinus: 15\n'),

  *machine({ machines }) {
    for (const machine of machines)
      for (const spec of machine.specs)
        for (const part of spec.quantity ? partsOf(spec.quantity) : []) {
          const own = unlikely(part);
          const said = own === undefined ? unlike(spec, part, machine) : { words: own, builtOn: [] };
          if (!said) continue;
          yield {
            place: placeOf(spec, ...pathOf(spec)),
            builtOn: said.builtOn,
            message: `${spec.id}: ${said.words}`,
            help: 'compare value and tolerance with the source; look at the decimal point',
          };
          break;
        }
  },
});

function unlikely({ kind, amount }: Part): string | undefined {
  const { nominal, min, max } = amount;
  const shown = writtenAmount(amount, kind);
  if (min !== undefined && max !== undefined && min === max) return 'the tolerance is nought: nothing could be right';
  // Nought of a temperature lies anywhere; a length may be set on either side of nought.
  if (kind === 'temperature' || nominal === 0) return undefined;
  if (nominal === undefined)
    return min !== undefined && max !== undefined && min > 0 && max / min >= LIMITS_APART
      ? `of ${shown} the upper limit is ${Number((max / min).toPrecision(2))} times the lower`
      : undefined;
  const sides = [min, max].flatMap((limit) => (limit === undefined ? [] : [Math.abs(limit - nominal)]));
  const widest = Math.max(0, ...sides) / Math.abs(nominal);
  if (widest >= TOLERANCE_WIDE) return `the tolerance of ${shown} is ${Math.round(widest * 100)} % of the value`;
  if (kind === 'torque' && sides.length > 0 && widest < TORQUE_TIGHT)
    return `the tolerance of ${shown} is ${Number((widest * 100).toPrecision(2))} % of the value, tighter than a torque wrench is`;
  return undefined;
}

function unlike(
  spec: Spec,
  part: Part,
  machine: Machine,
): { readonly words: string; readonly builtOn: readonly Place[] } | undefined {
  const own = bandOf(part.amount);
  if (own === undefined) return undefined;
  for (const { part: other, name, builtOn } of neighboursOf(spec, machine)) {
    const theirs = bandOf(other.amount);
    if (other.kind !== part.kind || theirs === undefined || part.kind === 'temperature') continue;
    if (!unitsCompare(part.kind, other.amount.unit, part.amount.unit)) continue;
    const ratio = own / convert(theirs, other.kind, other.amount.unit, part.amount.unit);
    if (ratio >= TOLERANCE_UNLIKE || ratio <= 1 / TOLERANCE_UNLIKE)
      return {
        words: `the tolerance of ${writtenAmount(part.amount, part.kind)} is far from that of ${name}, ${writtenAmount(other.amount, other.kind)}`,
        builtOn,
      };
  }
  return undefined;
}

function bandOf({ min, max }: Amount): number | undefined {
  return min !== undefined && max !== undefined && max > min ? max - min : undefined;
}

function pathOf(spec: Spec): string[] {
  const key = (['plusMinus', 'plus', 'minus'] as const).find((each) => spec.written[each] !== undefined);
  if (key) return [key];
  return [spec.written.nominal === undefined && spec.written.max !== undefined ? 'max' : keyOf(spec)];
}
