import { type Diagnostic, type Machine, placeOf, type Spec, specsSchema } from '../model/index.ts';
import { parseYears, readQuantity } from '../spec/index.ts';
import { tell } from './faults.ts';
import type { Points } from './points.ts';
import { originAt, readYaml } from './read-yaml.ts';

/** A machine and its spec table; rows with senseless numbers stay, without a quantity, and say what is wrong. */
export function readMachine(
  id: string,
  source: string,
  points: Points,
): { machine?: Machine; diagnostics: readonly Diagnostic[]; broken: readonly string[] } {
  const {
    value: written,
    origin,
    diagnostics: found,
    broken,
  } = readYaml(source, points, 0, specsSchema, 'a spec table');
  const diagnostics = [...found];
  if (!written) return { diagnostics, broken };
  const years = parseYears(written.machine.years);
  if (!years.ok) {
    diagnostics.push(tell('value-wrong', placeOf({ origin }, 'machine', 'years'), years.problem, years.help));
    return { diagnostics, broken };
  }
  const specs = written.specs.map((row, index): Spec => {
    const own = originAt(origin, 'specs', index);
    const rowYears = parseYears(row.years, years.value);
    if (!rowYears.ok)
      diagnostics.push(tell('value-wrong', placeOf({ origin: own }, 'years'), rowYears.problem, rowYears.help));
    const { quantity, problems } = readQuantity(row);
    return {
      id: row.id,
      title: row.title,
      origin: own,
      years: rowYears.ok ? rowYears.value : years.value,
      problems,
      written: row,
      ...(quantity ? { quantity } : {}),
    };
  });
  return {
    machine: { id, title: written.machine.title, origin, years: years.value, specs, written },
    diagnostics,
    broken,
  };
}
