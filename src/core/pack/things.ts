import type { Plain } from '../write/index.ts';

/** A value of a YAML text: of anybody's, so nothing is known of it. */
export type Thing = Plain | undefined;
export type Things = Readonly<Record<string, Thing>>;

export function mapOf(value: unknown): Things {
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Things) : {};
}

/** Never what every object has by nature: an id may be `constructor`. */
export function own(value: unknown, key: string): Thing {
  const map = mapOf(value);
  return Object.hasOwn(map, key) ? map[key] : undefined;
}

export function listOf(value: unknown): readonly Thing[] {
  return Array.isArray(value) ? value : [];
}

/** True where both say the same, in whatever order their keys stand. */
export function equal(a: unknown, b: unknown): boolean {
  return JSON.stringify(inOrder(a)) === JSON.stringify(inOrder(b));
}

/** Keys in one order, so that only what they say is compared. */
function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .toSorted()
      .map(([key, inner]) => [key, inOrder(inner)]),
  );
}

/** What one side says that the other does not, in a line. */
export function differing(side: readonly Thing[], other: readonly Thing[]): string {
  return side
    .map((row, index) => {
      const against = mapOf(other[index]);
      const told = Object.entries(mapOf(row)).filter(([key, value]) => !equal(value, own(against, key)));
      return told
        .map(([key, value]) => `${key}: ${typeof value === 'object' ? JSON.stringify(value) : value}`)
        .join(', ');
    })
    .filter((row) => row !== '')
    .join('; ');
}
