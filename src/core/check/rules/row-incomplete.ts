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

  *machine({ machines }) {
    for (const { specs } of machines)
      for (const spec of specs) {
        if (spec.written.withdrawn) continue;
        const lacks = lacking(spec);
        if (lacks.length === 0) continue;
        yield {
          ...(spec.written.critical ? { severity: 'error' as const } : {}),
          place: lacks.length === 1 && lacks[0]?.key ? placeOf(spec, lacks[0].key) : placeOf(spec),
          unlessMistyped: [placeOf(spec)],
          message: `${spec.id} ${spec.written.critical ? 'is critical and ' : ''}does not say ${lacks.map(({ what }) => what).join(', nor ')}`,
          help: `add ${lacks.map(({ add }) => add).join(', ')}: from the source itself, by the person who compares it`,
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

/** What is counted or geared has no tolerance. */
const WITHOUT_TOLERANCE: ReadonlySet<string> = new Set(['interval', 'count', 'ratio']);

function lacking(spec: Spec): Lack[] {
  const { checkedBy, checkedOn, source, critical, kind, exact } = spec.written;
  const named = exact && !critical;
  const parts = spec.quantity && !WITHOUT_TOLERANCE.has(kind) && !named ? partsOf(spec.quantity) : [];
  const open = parts.some(({ amount: { min, max } }) => min === undefined && max === undefined);
  // A standard is cited by its clause or table.
  const found = says(source?.page) || /\d/.test(source?.section ?? '');
  return [
    ...(open
      ? [
          {
            what: 'how far off it may be',
            add: critical ? 'its tolerance' : 'its tolerance, or exact: true where it is the size a thing is named by',
            key: 'nominal',
          },
        ]
      : []),
    ...(source && !found
      ? [
          {
            what: 'on which page it stands',
            add: 'the page of the source, or the clause or table of a standard',
            key: 'source',
          },
        ]
      : []),
    ...(says(checkedBy)
      ? []
      : [
          {
            what: 'who compared it with its source',
            add: 'checkedBy (a role)',
            ...(checkedBy === undefined ? {} : { key: 'checkedBy' }),
          },
        ]),
    ...(checkedOn === undefined ? [{ what: 'when', add: 'checkedOn (YYYY-MM-DD)' }] : []),
  ];
}

/** Blanks that people leave to be filled in later, and signs alone, are no answer (common practice, no source). */
const BLANK = /^(?:to ?do|tb[dcf]|fix ?me|x+|n\/?a|none|nobody|no ?one|unknown|not known|pending|missing)$/i;

/** True where something is said that is more than a blank. */
function says(value: string | number | undefined): boolean {
  const text = String(value ?? '').trim();
  return /[\p{L}\p{N}]/u.test(text) && !BLANK.test(text.replace(/[.?!:]+$/, ''));
}
