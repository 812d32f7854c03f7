import { placeOf, type Spec } from '../../model/index.ts';
import { partsOf } from '../../spec/index.ts';
import { rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

export default rule({
  id: 'row-incomplete',
  severity: 'warning',
  why: 'A value that can hurt someone needs its limits, the page it stands on, and somebody who compared it.',
  bad: replaceIn('specs/tarn-420.yaml', '    checkedBy: lead mechanic\n    checkedOn: 2026-10-03\n', ''),
  says: '8:5 axle-nut does not say who compared it with its source, nor when',
  good: replaceIn(
    'specs/tarn-420.yaml',
    '    checkedBy: lead mechanic\n',
    '    critical: true\n    checkedBy: second mechanic\n',
  ),

  *check({ machines }) {
    for (const { specs } of machines)
      for (const spec of specs) {
        const lacks = lacking(spec);
        if (lacks.length === 0) continue;
        yield {
          ...(spec.written.critical ? { severity: 'error' as const } : {}),
          place: lacks.length === 1 && lacks[0]?.key ? placeOf(spec, lacks[0].key) : placeOf(spec),
          unlessMistyped: [placeOf(spec)],
          message: `${spec.id} ${spec.written.critical ? 'is critical and ' : ''}does not say ${lacks.map(({ what }) => what).join(', nor ')}`,
          help: `add ${lacks.map(({ add }) => add).join(', ')}: from the source itself, by whoever compares it`,
        };
      }
  },
});

interface Lack {
  readonly what: string;
  readonly add: string;
  /** The key that is told. */
  readonly key?: string;
}

function lacking(spec: Spec): Lack[] {
  const { checkedBy, checkedOn, source, critical, kind } = spec.written;
  const parts = spec.quantity && kind !== 'interval' ? partsOf(spec.quantity) : [];
  const open = parts.some(({ amount: { min, max } }) => min === undefined && max === undefined);
  return [
    ...(critical && open ? [{ what: 'how far off it may be', add: 'its tolerance', key: 'nominal' }] : []),
    ...(source && source.page === undefined && source.section === undefined
      ? [{ what: 'on which page it stands', add: 'page or section of the source', key: 'source' }]
      : critical && source && source.page === undefined && !/\d/.test(source.section ?? '')
        ? [{ what: 'on which page it stands', add: 'the page of the source', key: 'source' }]
        : []),
    ...(checkedBy === undefined ? [{ what: 'who compared it with its source', add: 'checkedBy (a role)' }] : []),
    ...(checkedOn === undefined ? [{ what: 'when', add: 'checkedOn (YYYY-MM-DD)' }] : []),
  ];
}
