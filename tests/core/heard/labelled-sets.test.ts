import { expect, test } from 'vitest';
import type { HeardQuantity } from '../../../src/core/heard/index.ts';
import { labelled, score } from '../../support/heard.ts';
import { scoreBlind } from '../../support/heard-blind.ts';

const SETS = 'tests/reference/heard';

// Sets whose mistakes were read, or which were written beside the finder: they judge nothing, and keep a change from
// losing what is heard. What each came to when it was first run stands in docs/specs.md.
// Their labels stay as they were written. Heard otherwise since, as three newer sets label it: revs of an engine are a turning
// speed, `twenty, no more` is a limit, `a bit over a litre` none, trouble begins at a limit; and horsepower is a unit now.
test.each([
  ['sentences', 328, 0.97, 0.98],
  ['held-out', 136, 0.97, 1],
  // Newer sets hear the second of two passes: `second pass eighty-five`.
  ['third-set', 369, 0.97, 0.99],
  ['trades-tuning', 88, 1, 1],
  // Judged once at 0.961 and 0.940, a little short of the aims; then its misses were read. Three newer sets count the teeth
  // of a blade that is said to have forty.
  ['fifth-set', 193, 0.98, 0.98],
  // Written beside the finder, in eight parts; each came to 0.83 to 0.92 and 0.76 to 0.89 before its misses were read.
  ['speech-tuning', 943, 0.94, 0.94],
])('of %s, used to tune, nothing is lost', (name, sentences, precision, recall) => {
  const { misses, ...figures } = score(labelled(`${SETS}/${name}.txt`));
  expect(figures.sentences).toBe(sentences);
  expect(figures.precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(precision);
  expect(figures.recall, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(recall);
});

// Written beside the finder. Still heard: a size behind a comma, and how long a part of a film is.
test('of sentences that only name or tell, hardly a value is heard', () => {
  const { sentences, wanted, misses } = score(labelled(`${SETS}/nothing-said.txt`));
  expect(sentences).toBe(99);
  expect(wanted).toBe(0);
  expect(misses.length, JSON.stringify(misses, null, 1)).toBeLessThanOrEqual(2);
});

// The aims: a precision of 0.97, a recall of 0.95.
test('of a fourth set, judged once and then extended by newer kinds, the aims are kept', () => {
  const { precision, recall, misses } = score(labelled(`${SETS}/fourth-set.txt`));
  expect(precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(0.97);
  expect(recall).toBeGreaterThanOrEqual(0.95);
});

// Judged once at a precision of 0.855 and a recall of 0.670, far short of the aims, by somebody who saw neither the finder
// nor its other sets; then its misses were read.
test('of a sixth set, used to tune since, nothing is lost', () => {
  const { sentences, wanted, precision, recall, misses } = scoreBlind(`${SETS}/sixth-set.json`);
  expect(sentences).toBe(207);
  expect(wanted).toBe(221);
  expect(precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(0.99);
  expect(recall, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(0.99);
});

// Judged once at a precision of 0.955 and a recall of 0.930, short of the aims, by somebody who saw neither the finder nor its
// tests; then its misses were read. Its labels write in·lb and ft·lb for lbf·in and lbf·ft; those seven are read as the same unit.
test('of a seventh set, used to tune since, nothing is lost', () => {
  const { sentences, wanted, precision, recall, misses } = scoreBlind(`${SETS}/seventh-set.json`);
  expect(sentences).toBe(160);
  expect(wanted).toBe(158);
  expect(precision, JSON.stringify(misses, null, 1)).toBe(1);
  expect(recall).toBe(1);
});

// What four sets leave without a label by their own rules, and the finder hears: waits, turns of a screw, shares.
const UNLABELLED = ({ kind, unit }: HeardQuantity) =>
  kind === 'time' || unit === 'turn' || (kind === 'ratio' && unit === '%');

// By writers who had seen neither the finder nor its tests nor its sets. Each was judged once, before anybody read it, and with rules
// drawn from the misses of the one before; all fell short of the aims. No label was changed: what tells of them is precision
// and recall by the labels as they are; then without the kinds left out, and with the names `teeth` and `links` of their kinds read as counts.
// Ninth: 0.884 and 0.760; 0.938 and 0.767. Tenth: 0.892 and 0.789; 0.907 and 0.770. Eleventh: 0.844 and 0.840; 0.890 and 0.829.
// Twelfth: 0.802 and 0.762; 0.858 and 0.749. Then numbers without a unit came to be read wherever nothing speaks against it:
// Thirteenth: 0.845 and 0.887; 0.922 and 0.887. Fourteenth, of five other trades, judged after the thirteenth was read: 0.825 and
// 0.906; 0.913 and 0.906 (by the name `gal/min` read as US gallons, which the judging lacked, one more of each is right).
// Fifteenth, of the five trades, which labels waits, turns and shares: 0.923 and 0.903, with `y`, `wk` and `d` read as years, weeks and days.
test.each([
  ['ninth', 187, 0.96, 0.94, 0.97],
  ['tenth', 194, 0.97, 0.94, 0.98],
  ['eleventh', 184, 0.95, 0.95, 0.98],
  ['twelfth', 191, 0.92, 0.91, 0.96],
  ['thirteenth', 189, 0.91, 0.98, 0.98],
  ['fourteenth', 219, 0.88, 0.95, 0.98],
  ['fifteenth', 215, 0.99, 0.99, 0.99],
])('of the %s set, used to tune since, nothing is lost', (name, sentences, precision, recall, withoutUnlabelled) => {
  const { misses, ...figures } = scoreBlind(`${SETS}/${name}-set.json`);
  expect(figures.sentences).toBe(sentences);
  expect(figures.precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(precision);
  expect(figures.recall).toBeGreaterThanOrEqual(recall);
  expect(scoreBlind(`${SETS}/${name}-set.json`, UNLABELLED).precision).toBeGreaterThanOrEqual(withoutUnlabelled);
});

// Each was judged once, while nobody had read it. Sixteenth: 0.914 and 0.817. Then the misses of every second sentence were read, while
// the grammar was widened by amounts made by program: on the half that was read it went from 0.964 and 0.856 to 0.967 and 0.936, on
// the half that was not from 0.862 and 0.777 to 0.876 and 0.818. Then the other half was read, too. Seventeenth: 0.951 and 0.923; the
// finder of before, with which the sixteenth was judged, comes to 0.945 and 0.900 there. Eighteenth: 0.949 and 0.945. Nineteenth: 0.938
// and 0.922; of its fifteen false values eleven are the right number with the wrong side of a limit. All are read since.
test.each([
  ['sixteenth', 222, 0.98, 0.98],
  ['seventeenth', 200, 0.99, 0.99],
  ['eighteenth', 200, 0.99, 0.97],
  ['nineteenth', 200, 0.97, 0.963],
])(
  'of the %s set, judged once unread and used to tune since, nothing is lost',
  (name, sentences, precision, recall) => {
    const { misses, ...figures } = scoreBlind(`${SETS}/${name}-set.json`);
    expect(figures.sentences).toBe(sentences);
    expect(figures.precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(precision);
    expect(figures.recall).toBeGreaterThanOrEqual(recall);
  },
);

// By somebody who had seen neither the finder nor its tests nor its sets; judged once, and not read: its misses are not printed. A limit
// heard as a plain value, or a plain value as a limit, is a miss by the first figures, which fall short of the aims; the number is right.
test('a twentieth set, unread: the figures by which the finder is judged', () => {
  const file = `${SETS}/twentieth-set.json`;
  const { sentences, precision, recall } = scoreBlind(file);
  expect(sentences).toBe(220);
  expect(precision).toBeGreaterThanOrEqual(0.946);
  expect(recall).toBeGreaterThanOrEqual(0.925);
  const numbers = scoreBlind(file, () => false, 'numbers');
  expect(numbers.precision).toBeGreaterThanOrEqual(0.97);
  expect(numbers.recall).toBeGreaterThanOrEqual(0.95);
});

// By two more writers who saw neither the finder nor its tests nor its sets, by the rules of labelling of the fifteenth, to tune with.
// At first 0.830 and 0.717, 0.832 and 0.787. Of the second only the figures were looked at while the first was used to tune: they
// rose to 0.843 and 0.802 while those of the first rose to 0.958 and 0.877. Then its misses were read, too.
// Part c is chatty, by another writer, by the rules of the seventeenth set: at first 0.899 and 0.874. Part d is terse, by one more: at
// first 0.892 and 0.815. When c and every second sentence of d were read, the other half of d went from 0.885 and 0.831 to 0.905 and
// 0.861; then it was read, too. Part e, by one more, sets traps: counts, sizes, prices and clock times beside values; at first 0.882 and
// 0.895. Parts f1 and f2, by two more, are about limits, told in as many ways as they could think of; at first 0.683 and 0.645, 0.730 and
// 0.726. When every second sentence of both was read, the halves that were not went from 0.711 and 0.711 to 0.781 and 0.763, from
// 0.712 and 0.733 to 0.827 and 0.835; then they were read, too. Part g thinks aloud; at first 0.895 and 0.795; its second half, unread,
// went from 0.904 and 0.790 to 0.932 and 0.815. Part h, of five voices, was read last: at first 0.915 and 0.911, and while it was unread, by what
// was mended for the others, 0.923 and 0.923. They write `°` for degrees of heat without a scale, which counts as heard where both stay open.
test.each([
  // Newer sets hear a limit in what is found: `mine's showing over two hundred`.
  ['a', 300, 389, 0.965, 0.93],
  ['b', 300, 328, 0.96, 0.95],
  ['c', 320, 529, 0.97, 0.95],
  ['d', 320, 313, 0.98, 0.96],
  ['e', 320, 333, 0.972, 0.966],
  ['f1', 250, 341, 0.92, 0.885],
  ['f2', 250, 201, 0.945, 0.945],
  ['g', 250, 342, 0.935, 0.858],
  ['h', 250, 235, 0.97, 0.965],
])('of the talk to tune with, part %s, nothing is lost', (part, sentences, wanted, precision, recall) => {
  const { misses, ...figures } = scoreBlind(`${SETS}/talk-tuning-${part}.json`);
  expect(figures.sentences).toBe(sentences);
  expect(figures.wanted).toBe(wanted);
  expect(figures.precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(precision);
  expect(figures.recall, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(recall);
});

// Written before its writer had read the finder, who then mended it for the misses of the seventh; judged once at a precision of
// 0.936 (190 of 203) and a recall of 0.913 (190 of 208), short of the aims; then its misses were read. No label was changed.
test('of an eighth set, used to tune since, nothing is lost', () => {
  const { sentences, wanted, precision, recall, misses } = scoreBlind(`${SETS}/eighth-set.json`);
  expect(sentences).toBe(188);
  expect(wanted).toBe(208);
  expect(precision, JSON.stringify(misses, null, 1)).toBeGreaterThanOrEqual(0.98);
  expect(recall).toBeGreaterThanOrEqual(0.97);
});
