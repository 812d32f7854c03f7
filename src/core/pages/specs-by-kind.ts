import type { Machine, Spec } from '../model/index.ts';

/** Rows of one kind as the spec table's page lists them. */
export interface SpecKind {
  readonly kind: string;
  /** In words, such as `Torque sequence`. */
  readonly name: string;
  readonly rows: readonly Spec[];
}

/**
 * A machine's rows by kind, in the order of the table; within a kind those that can hurt somebody come first. Rows that
 * share an id stay together, so that nobody reads one year's value without seeing that there is another.
 */
export function specsByKind({ specs }: Machine): SpecKind[] {
  const critical = new Set(specs.filter(({ written }) => written.critical).map(({ id }) => id));
  const first = new Map<string, number>();
  for (const [i, { id }] of specs.entries()) if (!first.has(id)) first.set(id, i);
  const rank = ({ id }: Spec) => (critical.has(id) ? 0 : specs.length) + (first.get(id) ?? 0);
  return [...new Set(specs.map(({ written }) => written.kind))].map((kind) => ({
    kind,
    name: `${kind[0]?.toUpperCase()}${kind.slice(1).replaceAll('-', ' ')}`,
    rows: specs.filter(({ written }) => written.kind === kind).toSorted((a, b) => rank(a) - rank(b)),
  }));
}
