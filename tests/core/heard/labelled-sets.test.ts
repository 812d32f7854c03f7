import { expect, test } from 'vitest';
import { labelled, score } from '../../support/heard.ts';

const SETS = 'tests/reference/heard';

// Sets whose mistakes were read, or which were written beside the finder: they judge nothing, and keep a change from
// losing what is heard. What each came to when it was first run stands in docs/specs.md.
test.each([
  ['sentences', 328, 1, 1],
  ['held-out', 136, 0.98, 1],
  ['third-set', 369, 0.99, 1],
  ['trades-tuning', 65, 1, 1],
])('of %s, used to tune, nothing is lost', (name, sentences, precision, recall) => {
  const { misses, ...figures } = score(labelled(`${SETS}/${name}.txt`));
  expect(figures.sentences).toBe(sentences);
  expect(figures.precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(precision);
  expect(figures.recall, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(recall);
});

// The aims: a precision of 0.97, a recall of 0.95.
test('of a fourth set, judged once and then extended by newer kinds, the aims are kept', () => {
  const { precision, recall, misses } = score(labelled(`${SETS}/fourth-set.txt`));
  expect(precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(0.97);
  expect(recall).toBeGreaterThanOrEqual(0.95);
});

// Five other trades, written before the writer read the finder, run once when the finder was done: a precision of
// 0.961 and a recall of 0.940, a little short of the aims. Nothing was changed for it since; a change may not fall below.
test('of a fifth set, judged once, no less is heard than at its first run', () => {
  const { precision, recall, sentences, misses } = score(labelled(`${SETS}/fifth-set.txt`));
  expect(sentences).toBe(193);
  expect(precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(171 / 178);
  expect(recall).toBeGreaterThanOrEqual(171 / 182);
});
