import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lessonParts } from '../../../src/core/check/alone.ts';
import { check, RULES, SAMPLE_TODAY, sampleContent } from '../../../src/core/check/index.ts';
import type { Finding } from '../../../src/core/check/rule.ts';
import type { HeardSpeech } from '../../../src/core/media/index.ts';
import { KeptReads, readShop } from '../../../src/core/read/index.ts';
import { range, ticks } from '../../../src/core/time/index.ts';
import { afterChange, SHOP_CHANGES, type ShopState, START, sampleOf, shopChanges } from '../../support/shop-changes.ts';

// What is compared with is the check itself, from nothing: rules and readers have tests of their own.

function checked(state: ShopState, kept: KeptReads, speech?: ReadonlyMap<string, HeardSpeech>, today = SAMPLE_TODAY) {
  const { texts, facts, unreadable } = sampleContent(sampleOf(state));
  const read = readShop(texts, facts, unreadable, kept.again());
  return { ...read, found: check(read.shop, read.diagnostics, { today, ...(speech && { speech }) }) };
}

test('after each kind of change, and after taking it back, a check finds what one from nothing finds', () => {
  const kept = new KeptReads();
  checked(START, kept);
  for (const change of SHOP_CHANGES) {
    const state = afterChange(START, change);
    expect(checked(state, kept), change.name).toEqual(checked(state, new KeptReads()));
  }
  expect(checked(START, kept)).toEqual(checked(START, new KeptReads()));
}, 60_000);

test('changes in any order are found like a check from nothing', () => {
  fc.assert(
    fc.property(shopChanges(6), (changes) => {
      const kept = new KeptReads();
      let state = START;
      checked(state, kept);
      for (const change of changes) {
        state = afterChange(state, change);
        expect(checked(state, kept)).toEqual(checked(state, new KeptReads()));
      }
    }),
    { numRuns: 25 },
  );
});

test('another day, and speech that was found since, are looked at anew', () => {
  const kept = new KeptReads();
  checked(START, kept);
  const everywhere = [range<'recording'>(ticks(0), ticks(600 * 705_600_000))];
  const speech = new Map([['chain', { by: 'network' as const, stretches: everywhere }]]);
  const heard = checked(START, kept, speech);
  expect(heard.found).toEqual(checked(START, new KeptReads(), speech).found);
  expect(heard.found).not.toEqual(checked(START, kept).found);
  const later = checked(START, kept, undefined, '2040-01-01');
  expect(later.found).toEqual(checked(START, new KeptReads(), undefined, '2040-01-01').found);
  expect(later.found).not.toEqual(checked(START, kept).found);
});

test('of an id that could not be read elsewhere meanwhile nobody is told that it does not exist, and again later', () => {
  const kept = new KeptReads();
  const wanted = afterChange(START, {
    name: '',
    put: { 'lessons/chain.mdx': (START.files['lessons/chain.mdx'] ?? '').replace('of="axle-nut"', 'of="axel-nut"') },
    gone: [],
    media: {},
  });
  const table = (START.files['specs/tarn-420.yaml'] ?? '').replace('id: axle-nut', 'id: axel-nut');
  const unread = { 'specs/other.yaml': table.replace('kind: torque', 'kind: twist') };
  const elsewhere = afterChange(wanted, { name: '', put: unread, gone: [], media: {} });
  for (const [state, told] of [
    [wanted, true],
    [elsewhere, false],
    [wanted, true],
  ] as const) {
    const { found } = checked(state, kept);
    expect(found).toEqual(checked(state, new KeptReads()).found);
    expect(found.some(({ rule }) => rule === 'spec-unknown')).toBe(told);
  }
});

test('what a change does not touch is not read anew', () => {
  const kept = new KeptReads();
  const lessonsOf = (state: ShopState) => new Map(checked(state, kept).shop.lessons.map((one) => [one.id, one]));
  const before = lessonsOf(START);
  const change = SHOP_CHANGES.find(({ name }) => name === 'lessons/chain.mdx gets a line below');
  const after = lessonsOf(afterChange(START, change!));
  expect(after.get('brake')).toBe(before.get('brake'));
  expect(after.get('chain')).not.toBe(before.get('chain'));
});

describe('a rule about lessons finds in each by itself what it would find in all of them at once', () => {
  const lines = (findings: Iterable<Finding>) =>
    [...new Set([...findings].map((each) => JSON.stringify(each)))].toSorted();
  test.each(RULES)('$id', ({ bad, lesson, recording }) => {
    const state = afterChange(START, { name: '', put: bad.files, gone: [], media: bad.media ?? {} });
    const { shop } = checked(state, new KeptReads());
    const lessons = [...lessonParts(shop).values()].map((parts) => ({ ...parts, broken: shop.broken }));
    expect(lines(lessons.flatMap((one) => [...(lesson?.(one) ?? [])]))).toEqual(lines(lesson?.(shop) ?? []));
    const each = shop.recordings.flatMap((one) => [...(recording?.({ recordings: [one] }, undefined) ?? [])]);
    expect(lines(each)).toEqual(lines(recording?.(shop, undefined) ?? []));
  });
});
