import { placeOf, type Spec } from '../../model/index.ts';
import { convert, loading, loadingInWords } from '../../spec/index.ts';
import { must } from '../../time/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';
import { keyOf, middleOf } from './neighbours.ts';

/** Shares of the proof load between which a torque is likely. 75 to 90 % is what handbooks aim at (Shigley, 8-7). */
const LIKELY = { from: 0.2, to: 1 } as const;
/** Where the torque would have to land for another unit to explain it. */
const SENSIBLE = { from: 0.4, to: 0.95 } as const;
const FASTENER = '    fastener: {size: M14×1.5, class: "8.8"}\n';

export default rule({
  id: 'torque-unlikely',
  severity: 'warning',
  why: 'A torque written in the wrong unit stretches a bolt for good, or leaves it loose.',
  bad: replaceIn('specs/tarn-420.yaml', '    nominal: 98\n', `${FASTENER.replace('M14×1.5', 'M8')}    nominal: 98\n`),
  says: '12:14 axle-nut: 103 N·m loads M8 8.8 to 303 % of its proof load, which is unusually high',
  good: replaceIn('specs/tarn-420.yaml', '    nominal: 98\n', `${FASTENER}    nominal: 98\n`),

  *machine({ machines }) {
    for (const { specs } of machines)
      for (const spec of specs) {
        const said = unlikely(spec);
        if (said)
          yield {
            place: placeOf(spec, keyOf(spec)),
            message: said.message,
            help: `compare with the source; ${said.arithmetic}`,
          };
      }
  },
});

function unlikely(spec: Spec): { message: string; arithmetic: string } | undefined {
  const { fastener, condition } = spec.written;
  // Stages that end by angle stretch the bolt on purpose: their torque says nothing about the load.
  if (!fastener || spec.quantity?.kind !== 'torque') return undefined;
  const { amount } = spec.quantity;
  const usual = must(middleOf(amount), 'the value of a torque');
  const greatest = amount.max ?? usual;
  const loadOf = (value: number, unit = amount.unit) =>
    loading(convert(value, 'torque', unit, 'N·m'), fastener, condition);
  const shareOf = (value: number, unit?: string) => loadOf(value, unit)?.share ?? 0;
  const much = shareOf(greatest) > LIKELY.to;
  const value = much ? greatest : usual;
  const load = loadOf(value);
  if (!load || (!much && load.share >= LIKELY.from)) return undefined;
  const fits = ['N·m', 'lbf·ft', 'lbf·in', 'kgf·m', 'kgf·cm']
    .filter((unit) => unit !== amount.unit)
    .map((unit) => ({ unit, share: shareOf(usual, unit) }))
    .filter(({ share }) => SENSIBLE.from <= share && share <= SENSIBLE.to)
    .map(({ unit, share }) => `${usual} ${unit} would be ${percent(share)}`);
  const size = `${fastener.size} ${fastener.class}`;
  return {
    message: `${spec.id}: ${value} ${amount.unit} loads ${size} to ${percent(load.share)} of its proof load, which is unusually ${much ? 'high' : 'low'}${fits.length > 0 ? `; ${fits.join(', ')}` : ''}`,
    arithmetic: loadingInWords(convert(value, 'torque', amount.unit, 'N·m'), load),
  };
}

function percent(share: number): string {
  return `${Math.round(share * 100)} %`;
}
