import { type Place, placeOf, type Spec } from '../../model/index.ts';
import { parseThread, pitchesListedInstead } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

const base = (size: string) =>
  replaceIn('specs/tarn-420.yaml', '    nominal: 98\n', `    fastener: {size: ${size}}\n    nominal: 98\n`);

export default rule({
  id: 'thread-unlikely',
  severity: 'warning',
  why: 'A bolt of another pitch goes in for two turns, then it cuts a thread of its own.',
  bad: base('M14×1.75'),
  says: '11:22 axle-nut: no M14×1.75 is listed; ISO 261 has M14 with 2, 1.5, 1.25 or 1 mm',
  good: base('M14×1.5'),

  *machine({ machines }) {
    for (const { specs } of machines)
      for (const spec of specs)
        for (const { size, place } of threadsOf(spec)) {
          const listed = pitchesListedInstead(size);
          if (listed !== undefined)
            yield {
              place,
              message: `${spec.id}: no ${size} is listed; ${listed}`,
              help: 'compare the pitch with the source; if the maker cuts a thread of their own, leave it',
            };
        }
  },
});

/** The threads that a row names: that of its fastener, and itself where it says a thread. */
function threadsOf(spec: Spec): { readonly size: string; readonly place: Place }[] {
  const { quantity } = spec;
  const { fastener } = spec.written;
  return [
    ...(fastener && parseThread(fastener.size).ok
      ? [{ size: fastener.size, place: placeOf(spec, 'fastener', 'size') }]
      : []),
    ...(quantity?.kind === 'thread' ? [{ size: quantity.designation, place: placeOf(spec, 'designation') }] : []),
  ];
}
