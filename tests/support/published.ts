import { TestRunner } from 'vitest';

/** Notes are for people; nothing is compared with them. */
const FOR_PEOPLE = 'note';

/** Published values that know which of them no test has read. */
export interface Published<T> {
  readonly values: T;
  /** Where each value lies that no test of this file has read so far, such as `NIST SP 811, … › 3 › factor`. */
  unread(): readonly string[];
}

/**
 * Published values as tests read them: each reading is counted that is made while a test runs. What is read while tests
 * are only being listed, as for their titles, compares nothing and does not count.
 */
export function published<T extends object>(values: T): Published<T> {
  const read = new Set<string>();
  return {
    values: watched(values, '', (path) => {
      if (TestRunner.getCurrentTest()) read.add(path);
    }),
    unread: () => leaves(values).filter((path) => !read.has(path)),
  };
}

function watched<T extends object>(value: T, path: string, onRead: (path: string) => void): T {
  const seen = new Map<PropertyKey, object>();
  return new Proxy(value, {
    get(target, key, self) {
      const inner: unknown = Reflect.get(target, key, self);
      if (typeof key === 'symbol' || !Object.hasOwn(target, key) || (Array.isArray(target) && key === 'length'))
        return inner;
      const place = under(path, key);
      if (typeof inner !== 'object' || inner === null) {
        onRead(place);
        return inner;
      }
      const known = seen.get(key) ?? watched(inner, place, onRead);
      seen.set(key, known);
      return known;
    },
  });
}

function leaves(value: unknown, path = ''): string[] {
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, inner]) => (key === FOR_PEOPLE ? [] : leaves(inner, under(path, key))));
}

function under(path: string, key: string): string {
  return path === '' ? key : `${path} › ${key}`;
}
