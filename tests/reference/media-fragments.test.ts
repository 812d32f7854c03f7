import { expect, test } from 'vitest';
import { parseFragment, toSeconds } from '../../src/core/time/index.ts';
import published from './media-fragments.json' with { type: 'json' };

const shown = (fragment: string) => {
  const found = parseFragment(fragment);
  return found && [toSeconds(found.start), found.end === undefined ? null : toSeconds(found.end)];
};

// Source: W3C Media Fragments URI 1.0 user agent test cases, temporal ones.
test.each(published.cases)('$id #$fragment', ({ fragment, valid, start, end }) => {
  expect(shown(fragment)).toEqual(valid ? [start, end] : undefined);
});

test.each(published.extra)('#$fragment', ({ fragment, start, end }) => {
  expect(shown(fragment)).toEqual([start, end]);
});

test('no case is passed over', () => expect(published.cases.length).toBe(69));
