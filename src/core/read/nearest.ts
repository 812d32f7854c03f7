import { must } from '../time/index.ts';

/**
 * The known names nearest to a mistyped one, best first; empty when none is near enough to be meant.
 * Distance counts letters put in, left out, changed or swapped with their neighbour.
 *
 * @param most letters apart at most; without it more in longer names, and names that hold what was typed count too
 */
export function nearest(wanted: string, known: Iterable<string>, most?: number): string[] {
  const limit = most ?? Math.max(2, Math.floor(wanted.length / 3));
  return [...new Set(known)]
    .map((name) => ({ name, far: farApart(wanted, name, limit) }))
    .filter(({ name, far }) => far <= limit || (most === undefined && wanted.length > 3 && name.includes(wanted)))
    .toSorted((a, b) => (a.far === b.far ? 0 : a.far - b.far) || (a.name < b.name ? -1 : 1))
    .map(({ name }) => name);
}

/** A name that is longer was never typed by hand. */
const LONGEST = 200;

/** The distance where it may be within the limit: to compare two texts letter by letter takes the product of their lengths. */
function farApart(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit || Math.max(a.length, b.length) > LONGEST) return Number.POSITIVE_INFINITY;
  return distance(a.toLowerCase(), b.toLowerCase());
}

/** Optimal string alignment distance. */
function distance(a: string, b: string): number {
  let older: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min(
        must(last[j], 'a distance') + 1,
        must(row[j - 1], 'a distance') + 1,
        must(last[j - 1], 'a distance') + (same ? 0 : 1),
      );
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, must(older[j - 2], 'a distance') + 1);
      row.push(best);
    }
    older = last;
    last = row;
  }
  return must(last[b.length], 'a distance');
}

/** Help that names the nearest known name, or lists what there is. */
export function didYouMean(wanted: string, known: Iterable<string>, otherwise?: string): string {
  const names = [...known];
  const [close] = nearest(wanted, names);
  if (close !== undefined) return `the nearest is "${close}"`;
  if (otherwise !== undefined) return otherwise;
  return names.length === 0
    ? 'none is known yet'
    : `known are ${names.slice(0, 12).join(', ')}${names.length > 12 ? ', …' : ''}`;
}
