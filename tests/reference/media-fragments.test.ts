import { expect, test } from 'vitest';
import { parseFragment, toSeconds } from '../../src/core/time/index.ts';
import { published } from '../support/published.ts';
import copied from './media-fragments.json' with { type: 'json' };

const reference = published(copied);
const CASES = reference.values['W3C Media Fragments URI 1.0, 2012, UA test cases TC0001 to TC0095'];

const shown = (fragment: string) => {
  const found = parseFragment(fragment);
  return found && [toSeconds(found.start), found.end === undefined ? null : toSeconds(found.end)];
};

test.each(CASES)('$id #$fragment', ({ id, fragment, valid, start, end }) => {
  expect(shown(fragment), id).toEqual(valid ? [start, end] : undefined);
});

test.each(reference.values['W3C Media Fragments URI 1.0, 2012, section 4.2.1'])(
  '#$fragment',
  ({ fragment, start, end }) => {
    expect(shown(fragment)).toEqual([start, end]);
  },
);

test('no case is passed over', () => expect(CASES.length).toBe(69));

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
