import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import {
  countRecords,
  indexOf,
  indexOfCounted,
  type SearchData,
  SearchWords,
  searchData,
} from '../../../src/core/search/index.ts';
import { loadShop } from '../../../src/node/files/index.ts';

let data: SearchData;
beforeAll(async () => {
  data = searchData((await loadShop('content')).shop);
});

test('records counted in lots, wherever they are parted, make the index of all of them', () => {
  const { language, synonyms, skip, records } = data;
  const whole = indexOf(data);
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: records.length }), { maxLength: 6 }), (cuts) => {
      const ends = [...cuts.toSorted((a, b) => a - b), records.length];
      // Each lot by words compared anew, as in another build.
      const lots = ends.map((end, i) =>
        countRecords(records.slice(ends[i - 1] ?? 0, end), new SearchWords(language, synonyms, skip)),
      );
      expect(indexOfCounted({ language, synonyms, skip }, lots, whole.facts.steps)).toEqual(whole);
    }),
    { numRuns: 20 },
  );
});

test('a word is written as it first stands for itself, and not as a name that it stands for', () => {
  const of = (title: string) => ({
    id: 'step a/b',
    title,
    context: '',
    also: '',
    text: '',
    values: [],
    filters: { machine: [], tool: [], hazard: [], spec: [] },
  });
  const compared = new SearchWords('en', [{ say: 'axle nut', also: ['wheel nut'] }], []);
  const lots = ['Wheel nut', 'Axle nuts'].map((title) => countRecords([of(title)], compared));
  const { words } = indexOfCounted({ language: 'en', synonyms: [], skip: [] }, lots, 2);
  const places = [...words].map(([word, { written, postings }]) => [word, written, postings[0]?.places]);
  expect(places).toEqual([
    ['axl', 'axle', [0, 1]],
    ['nut', 'nuts', [0, 1]],
  ]);
});
