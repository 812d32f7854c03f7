import { placeOf, type Spec } from '../../model/index.ts';
import {
  convert,
  loading,
  type Part,
  parseThread,
  partsOf,
  type System,
  unitOf,
  unitsCompare,
  writtenAmount,
} from '../../spec/index.ts';
import { type Finding, rule } from '../rule.ts';
import { replaceIn } from '../sample.ts';

/** So many other rows of the kind make a habit (common practice, no source). */
const HABIT = 2;
const HELP = 'compare figure and unit with the source; a source in other units is converted by Liftside, not by hand';

const third = (unit: string) => {
  const text =
    replaceIn('specs/tarn-420.yaml', '    unit: mm\n', `    unit: ${unit}\n`).files['specs/tarn-420.yaml'] ?? '';
  const more = ['rear', 'front'].map(
    (which) =>
      `  - id: ${which}-play\n    title: Play\n    kind: length\n    min: 1\n    max: 2\n    unit: mm\n    source: {document: manual, page: 13}\n    checkedBy: lead\n    checkedOn: 2026-10-03\n`,
  );
  return { files: { 'specs/tarn-420.yaml': text + more.join('') } };
};

export default rule({
  id: 'unit-unlike-others',
  severity: 'warning',
  why: 'One row in another unit than all others of its kind was likely typed with the wrong one.',
  bad: third('in'),
  says: '22:11 chain-slack is in in, the other 2 rows of this kind are in mm',
  good: third('mm'),

  *machine({ machines }) {
    for (const { specs } of machines) {
      const all = specs.flatMap((spec) =>
        (spec.quantity ? partsOf(spec.quantity) : []).slice(0, 1).map((part) => ({ spec, part })),
      );
      for (const { spec, part } of all) {
        const others = all.filter((each) => each.spec !== spec && each.part.kind === part.kind);
        const [first] = others;
        if (others.some((each) => shares(each.part, part))) continue;
        if (!first || others.length < HABIT) {
          yield* byThread(spec, part);
          continue;
        }
        const units = [...new Set(others.map((each) => each.part.amount.unit))];
        if (units.length > 1 && !others.every((each) => shares(each.part, first.part))) continue;
        yield {
          place: placeOf(spec, 'unit'),
          message: `${spec.id} is in ${part.amount.unit}, the other ${others.length} rows of this kind are in ${units.join(' or ')}${inTheirs(spec, part, first.part.amount.unit)}`,
          help: HELP,
        };
      }
    }
  },
});

/** Where no other row makes a habit, a metric thread does: its torque is hardly given in pounds. */
function* byThread(spec: Spec, part: Part): Generator<Finding> {
  const { fastener } = spec.written;
  const thread = fastener && parseThread(fastener.size);
  if (part.kind !== 'torque' || !thread?.ok || thread.value.system !== 'metric') return;
  if (unitOf('torque', part.amount.unit).systems.includes('metric')) return;
  yield {
    place: placeOf(spec, 'unit'),
    message: `${spec.id} is in ${part.amount.unit}, and its thread ${thread.value.name} is metric${inTheirs(spec, part, 'N·m')}`,
    help: HELP,
  };
}

/** True where two amounts are in units of one system, or in the same unit. */
function shares(a: Part, b: Part): boolean {
  if (a.amount.unit === b.amount.unit) return true;
  // Scales of their own, such as hardness by two methods or teeth and links, stand beside each other.
  if (!unitsCompare(a.kind, a.amount.unit, b.amount.unit)) return true;
  if (a.kind === 'torque') return false;
  const systems = (part: Part): readonly System[] => unitOf(part.kind, part.amount.unit).systems;
  return systems(a).some((system) => systems(b).includes(system));
}

/** What the fastener would say of the same figure in the unit of the others. */
function inTheirs({ written: { fastener, condition } }: Spec, part: Part, unit: string): string {
  const { nominal } = part.amount;
  if (part.kind !== 'torque' || !fastener || nominal === undefined) return '';
  const [own, theirs] = [part.amount.unit, unit].map((as) =>
    loading(convert(nominal, 'torque', as, 'N·m'), fastener, condition),
  );
  return own && theirs
    ? `: ${writtenAmount({ nominal, unit }, 'torque')} would load ${fastener.size} to ${Math.round(theirs.share * 100)} % of its proof load, this to ${Math.round(own.share * 100)} %`
    : '';
}
