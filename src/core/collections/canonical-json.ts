/**
 * A value as the JSON Canonicalization Scheme writes it (RFC 8785): keys in the order of their UTF-16 units, no blanks,
 * texts and numbers as ECMAScript writes them. What is undefined is left out.
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const entries = Object.entries(value)
    .filter(([, inner]) => inner !== undefined)
    .toSorted(([a], [b]) => (a < b ? -1 : 1));
  return `{${entries.map(([key, inner]) => `${JSON.stringify(key)}:${canonicalJson(inner)}`).join(',')}}`;
}
