import type { Machine, SpecRowWritten } from '../model/index.ts';
import { fail, ok, type Parsed } from '../time/index.ts';
import { insertYaml, type Path, type Plain, removeYaml, setYaml } from '../write/index.ts';

/** Columns of a spec table as a spreadsheet keeps it, with where each stands in a row. Nested ones are JSON. */
const COLUMNS: readonly {
  readonly name: string;
  readonly path: Path;
  readonly as: 'text' | 'number' | 'list' | 'yes' | 'json';
}[] = [
  { name: 'id', path: ['id'], as: 'text' },
  { name: 'title', path: ['title'], as: 'text' },
  { name: 'kind', path: ['kind'], as: 'text' },
  ...['nominal', 'plusMinus', 'plus', 'minus', 'min', 'max'].map((name) => ({
    name,
    path: [name],
    as: 'number' as const,
  })),
  { name: 'unit', path: ['unit'], as: 'text' },
  ...['stages', 'distance', 'time', 'under'].map((name) => ({ name, path: [name], as: 'json' as const })),
  { name: 'years', path: ['years'], as: 'text' },
  { name: 'variants', path: ['variants'], as: 'list' },
  { name: 'regions', path: ['regions'], as: 'list' },
  { name: 'condition', path: ['condition'], as: 'text' },
  { name: 'size', path: ['fastener', 'size'], as: 'text' },
  { name: 'class', path: ['fastener', 'class'], as: 'text' },
  { name: 'replace', path: ['replace'], as: 'text' },
  { name: 'part', path: ['part'], as: 'text' },
  { name: 'critical', path: ['critical'], as: 'yes' },
  { name: 'note', path: ['note'], as: 'text' },
  { name: 'document', path: ['source', 'document'], as: 'text' },
  { name: 'section', path: ['source', 'section'], as: 'text' },
  { name: 'page', path: ['source', 'page'], as: 'text' },
  { name: 'checkedBy', path: ['checkedBy'], as: 'text' },
  { name: 'checkedOn', path: ['checkedOn'], as: 'text' },
  { name: 'reviewMonths', path: ['reviewMonths'], as: 'number' },
];

/** A spec table as rows of texts, the names of the columns first. History stays in the content. */
export function specTable({ specs }: Machine): string[][] {
  return [COLUMNS.map(({ name }) => name), ...specs.map(({ written }) => cellsOf(written))];
}

function cellsOf(written: SpecRowWritten): string[] {
  return COLUMNS.map(({ path, as }) => {
    const value = path.reduce<unknown>(
      (inside, key) => (typeof inside === 'object' && inside !== null ? Reflect.get(inside, key) : undefined),
      written,
    );
    if (value === undefined) return '';
    if (as === 'json') return JSON.stringify(value);
    return as === 'list' && Array.isArray(value) ? value.join(' ') : as === 'yes' ? 'yes' : String(value);
  });
}

/** Rows that are taken in from one file: ten times what the table of a machine has. */
const MOST_ROWS = 5_000;

/** What a merge would do: the new text of the spec table, and what it leaves alone. */
export interface SpecMerge {
  readonly text: string;
  readonly notes: readonly string[];
}

/**
 * Merges rows of a spreadsheet into a spec table by id, and by years and variants where rows share one. Only cells that
 * differ are written; comments and layout stay. Rows that the spreadsheet lacks are kept and told.
 *
 * @param source the YAML text of the table
 * @param rows the names of the columns first
 * @returns refused when a column is unknown or a cell cannot be read, with its row
 */
export function mergeSpecTable(
  source: string,
  machine: Machine,
  rows: readonly (readonly string[])[],
): Parsed<SpecMerge> {
  const [names = [], ...body] = rows;
  const known = new Map(COLUMNS.map((column) => [column.name, column]));
  const unknown = names.find((name) => !known.has(name.trim()));
  if (unknown !== undefined)
    return fail(`no column "${unknown}"`, `columns are ${COLUMNS.map(({ name }) => name).join(', ')}`);
  const columns = names.map((name) => known.get(name.trim()));
  if (!names.includes('id')) return fail('there is no column "id"', 'each row is known by its id');
  if (body.length > MOST_ROWS)
    return fail(
      `the file has ${body.length} rows, more than ${MOST_ROWS}`,
      'take the table of one machine, in parts where it is as long as that',
    );
  const present = specTable(machine).slice(1);
  const cell = (row: readonly string[], name: string, order: readonly string[]) =>
    row[order.indexOf(name)]?.trim() ?? '';
  const own = COLUMNS.map(({ name }) => name);
  const key = (row: readonly string[], order: readonly string[]) =>
    ['id', 'years', 'variants', 'regions', 'condition'].map((name) => cell(row, name, order)).join('|');
  let text = source;
  const notes: string[] = [];
  const added: Record<string, Plain>[] = [];
  /** By which row of the file each row of the table was found. */
  const used = new Map<number, number>();
  for (const [line, row] of body.entries()) {
    const alike = present.flatMap((each, index) => (cell(each, 'id', own) === cell(row, 'id', names) ? [index] : []));
    const at =
      alike.length === 1 ? alike[0] : alike.find((index) => key(present[index] ?? [], own) === key(row, names));
    const before = at === undefined ? undefined : used.get(at);
    if (before !== undefined)
      return fail(
        `rows ${before} and ${line + 2} are the same spec: ${cell(row, 'id', names)}`,
        'leave one of the two out, or tell them apart by years, variants, regions or condition',
      );
    const values: { readonly path: Path; readonly value: Plain | undefined }[] = [];
    for (const [index, column] of columns.entries()) {
      const written = row[index]?.trim() ?? '';
      if (!column || (at !== undefined && written === cell(present[at] ?? [], column.name, own))) continue;
      const value = valueOfCell(written, column.as);
      if (!value.ok) return fail(`row ${line + 2}, ${column.name}: ${value.problem}`, value.help);
      values.push({ path: column.path, value: value.value });
    }
    if (at === undefined) {
      added.push(newRow(values));
      notes.push(`row ${line + 2} is new: ${cell(row, 'id', names)}`);
      continue;
    }
    const changed = alter(text, at, values);
    if (!changed.ok) return changed;
    text = changed.value;
    used.set(at, line + 2);
  }
  if (added.length > 0) {
    const changed = insertYaml(text, ['specs'], Number.MAX_SAFE_INTEGER, ...added);
    if (!changed.ok) return changed;
    text = changed.value;
  }
  const kept = present.filter((_, index) => !used.has(index)).map((row) => cell(row, 'id', own));
  if (kept.length > 0) notes.push(`not in the file, and kept: ${kept.join(', ')}`);
  return ok({ text, notes });
}

function alter(
  source: string,
  at: number,
  values: readonly { path: Path; value: Plain | undefined }[],
): Parsed<string> {
  let text = source;
  for (const { path, value } of values) {
    const whole: Path = ['specs', at, ...path];
    const changed = value === undefined ? removeYaml(text, whole) : setYaml(text, whole, value);
    if (!changed.ok) return changed;
    text = changed.value;
  }
  return ok(text);
}

function newRow(values: readonly { path: Path; value: Plain | undefined }[]): Record<string, Plain> {
  const row: Record<string, Plain> = {};
  for (const { path, value } of values) {
    const [outer = '', inner] = path.map(String);
    if (value === undefined) continue;
    if (inner === undefined) row[outer] = value;
    else row[outer] = { ...(row[outer] as Record<string, Plain> | undefined), [inner]: value };
  }
  return row;
}

function valueOfCell(written: string, as: (typeof COLUMNS)[number]['as']): Parsed<Plain | undefined> {
  if (written === '') return ok(undefined);
  switch (as) {
    case 'number': {
      const number = Number(written.replace(',', '.'));
      return Number.isFinite(number) ? ok(number) : fail(`"${written}" is not a number`, 'write a plain number');
    }
    case 'list':
      return ok(written.split(/[\s,;]+/));
    case 'yes':
      return /^(yes|true|1|x)$/i.test(written) ? ok(true) : ok(false);
    case 'json':
      try {
        return ok(JSON.parse(written) as Plain);
      } catch {
        return fail(`"${written}" is not JSON`, 'stages and intervals are written as JSON, as the export does');
      }
    default:
      return ok(written);
  }
}
