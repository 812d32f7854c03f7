/** What a row says apart from its value: whatever is not listed here is part of the value, as keys to come will be. */
const BESIDE = new Set(['id', 'title', 'note', 'source', 'part', 'reviewMonths', 'history']);
/** Who compared it, and when: one thing. */
const COMPARED = new Set(['checkedBy', 'checkedOn']);

/**
 * What a key of a spec row belongs to: `value` for what it says of the machine (numbers, unit, for whom they hold,
 * whether it can hurt, whether it is used once), which is one thing; `compared`; of any other key the key itself.
 */
export function partOfRow(key: string): string {
  if (COMPARED.has(key)) return 'compared';
  return BESIDE.has(key) ? key : 'value';
}
