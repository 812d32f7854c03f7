import type { Machine, Spec } from '../model/index.ts';

/**
 * Id of a row on its machine's page. The first row of a spec has the spec's own id; the others have a number after two
 * hyphens, which no id holds, so that a link leads to the row that it stands beside.
 */
export function specAnchor({ specs }: Machine, row: Spec): string {
  const index = specs.filter(({ id }) => id === row.id).indexOf(row);
  return index > 0 ? `${row.id}--${index + 1}` : row.id;
}
