import {
  type Diagnostic,
  type FormerValue,
  type Machine,
  placeOf,
  type Spec,
  type SpecRowWritten,
  specsSchema,
} from '../model/index.ts';
import { parseYears, type QuantityProblem, readQuantity } from '../spec/index.ts';
import { tell } from './faults.ts';
import type { Points } from './points.ts';
import { originsIn, readYaml } from './read-yaml.ts';

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
  const originOf = originsIn(origin, 'specs');
  const specs = written.specs.map((row, index): Spec => {
    const own = originOf(index);
    const rowYears = parseYears(row.years, years.value);
    if (!rowYears.ok)
      diagnostics.push(tell('value-wrong', placeOf({ origin: own }, 'years'), rowYears.problem, rowYears.help));
    const { quantity, problems } = readQuantity(row);
    const before = readFormer(row);
    return {
      id: row.id,
      title: row.title,
      origin: own,
      years: rowYears.ok ? rowYears.value : years.value,
      former: row.withdrawn
        ? [
            { until: row.withdrawn.on, bulletin: row.withdrawn.why, ...(quantity ? { quantity } : {}) },
            ...before.former,
          ]
        : before.former,
      problems: [...problems, ...before.problems],
      written: row,
      ...(quantity && !row.withdrawn ? { quantity } : {}),
    };
  });
  return {
    machine: { id, title: written.machine.title, origin, years: years.value, specs, written },
    diagnostics,
    broken,
  };
}

/** The superseded values of a row, the latest first, and what is wrong with their numbers and units. */
function readFormer({ kind, history = [] }: SpecRowWritten): {
  former: readonly FormerValue[];
  problems: readonly QuantityProblem[];
} {
  const read = history.map(({ until, bulletin, ...old }, index) => {
    const { quantity, problems } = readQuantity({ ...old, kind });
    return {
      value: { until, ...(bulletin ? { bulletin } : {}), ...(quantity ? { quantity } : {}) },
      problems: problems.map((each) => ({
        ...each,
        path: ['history', index, ...each.path],
        problem: `former value until ${until}: ${each.problem}`,
      })),
    };
  });
  return {
    former: read.map(({ value }) => value).toSorted((a, b) => (a.until < b.until ? 1 : a.until > b.until ? -1 : 0)),
    problems: read.flatMap(({ problems }) => problems),
  };
}
