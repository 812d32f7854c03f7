import { partOfRow } from '../model/index.ts';
import { equal, mapOf, own, type Sides, type Thing, type Things } from '../pack/index.ts';
import { mergeKeys, withGroups } from './merge-keys.ts';

/** Somebody of the shop who has compared the new values with their source. */
export interface Comparison {
  /** Role. */
  readonly by: string;
  /** YYYY-MM-DD */
  readonly on: string;
}

/** The rows of one spec id, of which the publisher has changed something. */
export interface RowsChange {
  /** The publisher changes a value, or takes rows away or adds some; never done unasked. */
  readonly value: boolean;
  /** Both sides have changed the same, differently. */
  readonly collides: boolean;
  /** As they stand when the publisher's is taken, and when the shop's is kept. */
  readonly taken: readonly Thing[];
  readonly kept: readonly Thing[];
  readonly critical: boolean;
}

/**
 * The rows of one spec id by three versions. A critical value that changes loses who compared it, until somebody of the
 * shop has compared it anew.
 */
export function changeOfRows({ base, here, there }: Sides, comparison?: Comparison): RowsChange {
  const critical = [...base, ...here, ...there].some((row) => own(row, 'critical') === true);
  const anew = (row: Things): Things => {
    // What is taken back needs nobody who has compared it.
    if (!critical || row.withdrawn !== undefined) return row;
    const { checkedBy: _, checkedOn: __, ...rest } = row;
    return comparison ? { ...rest, checkedBy: comparison.by, checkedOn: comparison.on } : rest;
  };
  if (!alike(base, here) || !alike(here, there)) {
    const unlike = there.map((row) => {
      const same = here.find((own) => equal(own, row));
      return same ?? (anew(mapOf(row)) as Thing);
    });
    return { value: true, collides: !equal(base, here), taken: unlike, kept: here, critical };
  }
  const rows = here.map((row, index) => {
    const [was, ours, theirs] = [mapOf(base[index]), mapOf(row), mapOf(there[index])];
    const { collided, taken } = mergeKeys(was, ours, theirs, partOfRow);
    // Whoever compared it here goes on standing for it; whoever did there does so where nobody has here.
    const collisions = collided.filter((group) => group !== 'compared');
    const value = [...taken, ...collisions].includes('value');
    const from = (groups: readonly string[]) => (key: string) => groups.includes(partOfRow(key));
    const takes = [...taken, ...collisions, ...(value ? ['compared'] : [])];
    const whole = withGroups(ours, theirs, from(takes));
    // A value that is kept keeps its source and its history.
    const unasked = value ? [] : taken;
    return {
      value,
      collides: collisions.length > 0,
      taken: (value ? anew(whole) : whole) as Thing,
      kept: withGroups(ours, theirs, from(unasked)) as Thing,
    };
  });
  return {
    value: rows.some(({ value }) => value),
    collides: rows.some(({ collides }) => collides),
    taken: rows.map(({ taken }) => taken),
    kept: rows.map(({ kept }) => kept),
    critical,
  };
}

/** True where the rows of one side are about the same machines as those of the other, one by one. */
function alike(a: readonly Thing[], b: readonly Thing[]): boolean {
  const whose = (rows: readonly Thing[]) =>
    rows.map((row) => ['years', 'variants', 'regions', 'condition'].map((key) => own(row, key) ?? null));
  return equal(whose(a), whose(b));
}
