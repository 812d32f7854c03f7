import { expect, test } from 'vitest';
import { findQuantities } from '../../../src/core/heard/index.ts';
import { apart, areHeard } from '../../support/heard-apart.ts';
import { grid, isHeard } from '../../support/heard-grid.ts';
import { isLimitHeard, limits } from '../../support/heard-limits.ts';

/** As captions made by a machine have it: small letters, no marks, and more said behind it. */
const asCaption = <T extends { readonly text: string }>(said: T): T => ({
  ...said,
  text: `${said.text
    .toLowerCase()
    .replace(/[.,:?](?=\s|$)/g, '')
    .replaceAll('-', ' ')} so that is how we do it here`,
});
/** What small letters and no marks leave unclear. */
const needsMarks = ({ text }: { readonly text: string }) => /[A-Z]{3}|N·m|Rockwell|\d-\d|^\./.test(text);

const of = <T extends { readonly text: string }>(spoken: Iterable<T>, isRight: (said: T) => boolean) => {
  const written = [...spoken];
  const captions = written.filter((said) => !needsMarks(said)).map(asCaption);
  const share = (said: readonly T[]) => {
    const missed = said.filter((each) => !isRight(each));
    return {
      said: said.length,
      right: 1 - missed.length / said.length,
      missed: missed.map(({ text }) => text).join('\n'),
    };
  };
  return { written: share(written), captions: share(captions) };
};

// Amounts made by program, from tables of how numbers, units and limits are spoken. The steps share no factor with a table's length,
// so that every row of every table is met. What is left: odds said as ranges, a heat or an angle with nothing that says which.
test.each([
  ['amounts with their unit', () => of(grid(193), isHeard), 0.99, 0.98],
  ['pairs with their unit said once', () => of(apart(419), areHeard), 0.97, 0.95],
  ['limits', () => of(limits(23), isLimitHeard), 0.99, 0.99],
])('of %s, nearly all are heard and nothing else', (_, heard, inWriting, inCaptions) => {
  const { written, captions } = heard();
  expect(written.said).toBeGreaterThan(900);
  expect(written.right, written.missed).toBeGreaterThanOrEqual(inWriting);
  expect(captions.said).toBeGreaterThan(700);
  expect(captions.right, captions.missed).toBeGreaterThanOrEqual(inCaptions);
});

// Each is a rule of the grammar, found by the tables.
test.each([
  ['a twentieth of a millimetre', 0.05],
  ['three point eight hundredths of a millimetre', 0.038],
  ['sixteenth of a millimetre', 0.0625],
  ['two-eight-fifty millimetres', 2850],
  ['seventeen twenty-five millimetres', 1725],
])('%s', (text, value) => {
  expect(findQuantities(text).map(({ min, max }) => [min, max])).toEqual([[value, value]]);
});
