import { type HeardQuantity, isComparable } from '../heard/index.ts';
import type { Spec } from '../model/index.ts';
import { type Part, partsOf } from '../spec/index.ts';

/** A row with the part of its quantity that a value can be held against. */
export interface RowPart {
  readonly row: Spec;
  readonly part: Part;
}

/** The rows that a value in speech may stand for. */
export interface RowsMeant {
  /** Comparable parts, by the id of their rows; an id has all of its rows. */
  readonly byId: ReadonlyMap<string, readonly RowPart[]>;
  /** True where the words name them, or the passage cites them; false where only the kind fits. */
  readonly meant: boolean;
}

/**
 * The rows that a value is held against: those the words name by all of their id; else those of its kind that the
 * passage cites; else, where it cites none, those that the words come nearest to; else all of its kind.
 *
 * @param sentence the words the value stands in
 * @param cited ids that the passage cites
 * @param rows of the machine that hold for the lesson
 */
export function rowsMeant(
  heard: HeardQuantity,
  sentence: string,
  cited: ReadonlySet<string>,
  rows: readonly Spec[],
): RowsMeant {
  const comparable = groupById(heard, rows);
  const said = new Set(wordsOf(sentence));
  const only = (keep: (id: string) => boolean) => new Map([...comparable].filter(([id]) => keep(id)));
  const share = (id: string) => {
    const own = wordsOf(id);
    return own.filter((word) => said.has(word)).length / own.length;
  };
  const whole = only((id) => share(id) === 1);
  const own = only((id) => cited.has(id));
  const wholeAndOwn = only((id) => whole.has(id) && own.has(id));
  if (wholeAndOwn.size > 0) return { byId: wholeAndOwn, meant: true };
  if (whole.size > 0) return { byId: whole, meant: true };
  if (own.size > 0) return { byId: own, meant: true };
  const best = Math.max(0, ...[...comparable.keys()].map(share));
  if (best > 0) return { byId: only((id) => share(id) === best), meant: true };
  return { byId: comparable, meant: false };
}

function groupById(heard: HeardQuantity, rows: readonly Spec[]): ReadonlyMap<string, readonly RowPart[]> {
  const byId = new Map<string, RowPart[]>();
  for (const row of rows)
    for (const part of row.quantity ? partsOf(row.quantity) : [])
      if (isComparable(heard, part)) byId.set(row.id, [...(byId.get(row.id) ?? []), { row, part }]);
  return byId;
}

/** The words of a text or an id in small letters, without the s of plurals. */
function wordsOf(text: string): string[] {
  return (text.toLowerCase().match(/[\p{L}\d]+/gu) ?? []).map((word) =>
    word.length > 3 ? word.replace(/s$/, '') : word,
  );
}
