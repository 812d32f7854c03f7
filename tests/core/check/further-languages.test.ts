import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, SOUND_SHOP, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

/** What is told of the sound shop in two languages, with some files changed. */
function told(files: Readonly<Record<string, string>>, without?: string): string[] {
  const { texts, facts } = sampleContent({
    files: {
      'shop.yaml': `${SOUND_SHOP['shop.yaml']}languages: [en, es]\n`,
      'lessons/chain.es.mdx': SOUND_SHOP['lessons/chain.mdx'] ?? '',
      'words.es.yaml': 'words:\n  - { say: tuerca, also: [nut] }\n',
      ...files,
    },
  });
  const all = new Map([...texts].filter(([file]) => file !== without));
  const { shop, diagnostics } = readShop(all, facts);
  return check(shop, diagnostics, { today: SAMPLE_TODAY }).map(({ rule, place }) => `${rule} ${place.file}`);
}

test('a shop in two languages is sound', () => {
  expect(told({})).toEqual([]);
});

test('without shop.yaml its further languages are unknown, and that is one finding', () => {
  expect(told({}, 'shop.yaml')).toEqual(['file-missing shop.yaml']);
});

test('a language that the shop does not name is told of each file', () => {
  expect(told({ 'shop.yaml': SOUND_SHOP['shop.yaml'] ?? '' })).toEqual([
    'file-ignored lessons/chain.es.mdx',
    'file-ignored words.es.yaml',
  ]);
});

// 2026-12-05 is a Saturday, by the calendar of ISO 8601.
test.each([
  ['Cadena y piñones, el sábado', []],
  ['Cadena y piñones, el domingo', ['weekday-wrong classes/saturday.yaml']],
])('a title in a further language: %s', (title, findings) => {
  const text = (SOUND_SHOP['classes/saturday.yaml'] ?? '').replace(/^title: .*$/m, `title: ${title}`);
  expect(text).toContain(title);
  expect(told({ 'classes/saturday.yaml': text })).toEqual(findings);
});
