import { compile, type JSONValue } from 'json-p3';
import { expect, test } from 'vitest';
import { published } from '../../support/published.ts';
import copied from './json-path.json' with { type: 'json' };

// Examples of the standard for the paths of a mapping, put in from memory; those with a filter without some of the
// members that it passes over.
const reference = published(copied);

test.each(Object.keys(reference.values))('%s', (source) => {
  const plain = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;
  for (const { path, in: whole, finds } of reference.values[source as keyof typeof reference.values])
    expect([
      path,
      compile(path)
        .query(plain(whole) as JSONValue)
        .values(),
    ]).toEqual([path, plain(finds)]);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
