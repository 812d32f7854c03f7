import { type Machine, placeOf } from '../../model/index.ts';
import { rule } from '../rule.ts';
import { replaceIn, SOUND } from '../sample.ts';
import { coverageOf } from './spec-coverage.ts';

export default rule({
  id: 'spec-hole',
  severity: 'error',
  why: 'Owners of the machines left out are shown no value, or take the one beside it.',
  bad: replaceIn('specs/tarn-420.yaml', '    kind: torque\n', '    kind: torque\n    years: 2019-2022\n'),
  says: '8:5 axle-nut has no row for 2023–2025',
  good: SOUND,

  *around({ machines, broken }, today) {
    for (const machine of machines)
      for (const { id, rows, missing } of coverageOf(asFarAsMade(machine, today))) {
        const [first] = rows;
        if (missing === '' || !first || broken.has(id)) continue;
        yield {
          place: placeOf(first),
          builtOn: rows.map((row) => placeOf(row)),
          message: `${id} has no row for ${missing}`,
          help: 'add a row for them, or widen the years, variants or regions of one that holds there too',
        };
      }
  },
});

/** The machine without years that nobody can have rows for yet: another rule tells that its years go too far. */
function asFarAsMade(machine: Machine, today: string): Machine {
  const { from, to } = machine.years;
  if (to <= Number(today.slice(0, 4)) + 1) return machine;
  const ends = machine.specs.flatMap(({ written, years }) => (written.years === undefined ? [] : [years.to]));
  return { ...machine, years: { from, to: Math.min(to, Math.max(from, ...(ends.length > 0 ? ends : [to]))) } };
}
