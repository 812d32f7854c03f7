import type { Machine, Spec } from '../../model/index.ts';
import { rowsById } from '../../programme/index.ts';
import { applies, printYears } from '../../spec/index.ts';

/** One machine that a table has to have an answer for. */
interface Case {
  readonly year: number;
  readonly variant?: string;
  readonly region?: string;
}

/** How the rows of one id cover the machine. */
export interface Coverage {
  readonly id: string;
  readonly rows: readonly Spec[];
  /** In words, such as `2019–2021, sport`; empty when nothing is missing. */
  readonly missing: string;
  /** The pairs that both hold for some machine, with which one. */
  readonly doubled: readonly { readonly first: Spec; readonly second: Spec; readonly where: string }[];
}

/**
 * How each id of a spec table covers years, variants and regions. Rows for threads in another condition stand beside
 * each other: dry and oiled are two values, not a contradiction.
 */
export function coverageOf(machine: Machine): readonly Coverage[] {
  const cases = casesOf(machine);
  return [...rowsById(machine)].map(([id, rows]) => {
    const missing = cases.filter((each) => !rows.some((row) => applies(row, each)));
    const doubled = rows.flatMap((first, index) =>
      rows
        .slice(index + 1)
        .filter((second) => first.written.condition === second.written.condition)
        .map((second) => ({
          first,
          second,
          both: cases.filter((each) => applies(first, each) && applies(second, each)),
        }))
        .filter(({ both }) => both.length > 0)
        .map(({ both, ...pair }) => ({ ...pair, where: inWords(both, machine) })),
    );
    return { id, rows, missing: inWords(missing, machine), doubled };
  });
}

function casesOf({ years, written, specs }: Machine): Case[] {
  const variants = written.machine.variants?.map(({ id }) => id) ?? [];
  // Regions that only rows name count too: what holds in one region says nothing about the others.
  const regions = [
    ...new Set([...(written.machine.regions ?? []), ...specs.flatMap((row) => row.written.regions ?? [])]),
  ];
  const cases: Case[] = [];
  for (let year = years.from; year <= years.to; year++)
    for (const variant of variants.length > 0 ? variants : [undefined])
      for (const region of regions.length > 0 ? regions : [undefined])
        cases.push({ year, ...(variant ? { variant } : {}), ...(region ? { region } : {}) });
  return cases;
}

/** Cases in words: runs of years, with the variants and regions where these make a difference. */
function inWords(cases: readonly Case[], machine: Machine): string {
  const all = casesOf(machine);
  const kindOf = ({ variant, region }: Case) => [variant, region].filter((part) => part).join(', ');
  const byKind = new Map<string, Case[]>();
  for (const each of cases) byKind.set(kindOf(each), [...(byKind.get(kindOf(each)) ?? []), each]);
  const kinds = new Set(all.map(kindOf));
  const runs = [...byKind].map(([kind, own]) => ({ kind, years: runsOf(own.map(({ year }) => year)) }));
  const [first] = runs;
  if (first && runs.length === kinds.size && runs.every(({ years }) => years === first.years)) return first.years;
  return runs.map(({ kind, years }) => [years, kind].filter((part) => part !== '').join(', ')).join('; ');
}

function runsOf(years: readonly number[]): string {
  const runs: { from: number; to: number }[] = [];
  for (const year of [...new Set(years)].toSorted((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && last.to === year - 1) last.to = year;
    else runs.push({ from: year, to: year });
  }
  return runs.map((run) => printYears(run)).join(' and ');
}
