import { equal, own, type Thing, type Things } from '../pack/index.ts';

/** What became of a thing's keys: those of one group stand or fall together. */
export interface MergedKeys {
  readonly merged: Things;
  /** Groups that both sides changed, differently; in `merged` the shop's own stand. */
  readonly collided: readonly string[];
  /** Groups that the publisher alone changed; in `merged` theirs stand. */
  readonly taken: readonly string[];
}

/**
 * A thing that both sides may have changed since the version they come from, group by group.
 *
 * @param groupOf the group of a key; keys that say nothing without each other share one
 */
export function mergeKeys(
  base: Things,
  here: Things,
  there: Things,
  groupOf: (key: string) => string = (key) => key,
): MergedKeys {
  const keys = [...new Set([...Object.keys(here), ...Object.keys(there), ...Object.keys(base)])];
  const groups = new Map<string, string[]>();
  for (const key of keys) groups.set(groupOf(key), [...(groups.get(groupOf(key)) ?? []), key]);
  const [collided, taken]: [string[], string[]] = [[], []];
  for (const [group, own] of groups) {
    const [was, ours, theirs] = [base, here, there].map((side) => pick(side, own));
    if (equal(ours, theirs) || equal(was, theirs)) continue;
    (equal(was, ours) ? taken : collided).push(group);
  }
  return { merged: withGroups(here, there, (key) => taken.includes(groupOf(key))), collided, taken };
}

/** A thing with some keys as another one has them, in the order of its own. */
export function withGroups(here: Things, there: Things, fromThere: (key: string) => boolean): Things {
  const keys = [...new Set([...Object.keys(here), ...Object.keys(there)])];
  const entries = keys.map((key): [string, Thing] => [key, own(fromThere(key) ? there : here, key)]);
  return Object.fromEntries(entries.filter(([, value]) => value !== undefined));
}

function pick(side: Things, keys: readonly string[]): Things {
  return Object.fromEntries(keys.filter((key) => Object.hasOwn(side, key)).map((key) => [key, own(side, key)]));
}
