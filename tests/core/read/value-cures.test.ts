import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, SOUND_SHOP } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

const SPECS = 'specs/tarn-420.yaml';

/** What is told, and what to type, where the sound shop's value of 98 is written so. */
function cured(from: string, to: string): string[] {
  const text = SOUND_SHOP[SPECS] ?? '';
  expect(text.split(from), `the table holds "${from}"`).not.toHaveLength(1);
  const texts = new Map([...Object.entries(SOUND_SHOP), [SPECS, text.replace(from, () => to)]]);
  const { shop, diagnostics } = readShop(texts, (file) => {
    const known = texts.get(file);
    return known === undefined
      ? { state: 'media', media: { duration: 600 * 705_600_000 } }
      : { state: 'text', text: known };
  });
  return check(shop, diagnostics, { today: SAMPLE_TODAY }).map(({ message, help }) => `${message}: ${help}`);
}

test.each([
  ['98 ± 5', 'write nominal: 98 and plusMinus: 5, each on its own line'],
  ['98 +/- 5', 'write nominal: 98 and plusMinus: 5, each on its own line'],
  ['90-98', 'write min: 90 and max: 98, each on its own line'],
  ['90 to 98', 'write min: 90 and max: 98, each on its own line'],
  ['max 98', 'write max: 98'],
  ['"> 98"', 'write min: 98'],
  ['50:1', 'write 50, and unit: ":1" below it'],
  ['98 Nm', 'write 98, and unit: Nm on its own line'],
  ['5/8', 'write 0.625'],
  ['5/0', 'write a number in figures, with a point, such as 19 or 0.65'],
  ['20 000', 'write 20000'],
  ['20_000', 'write 20000'],
  ['−98', 'write -98'],
  ['９８', 'write 98'],
  ['5 %', 'write a plain number, in the unit of the value'],
  ['tight', 'write a number in figures, with a point, such as 19 or 0.65'],
  ['98,5', 'write 98.5'],
  // A comma before three figures is read in two ways, a thousand times apart.
  ['20,000', 'write 20000 where the comma parts thousands, 20 where it stands for the point'],
  ['1,200,000', 'write 1200000'],
])('nominal: %s', (typed, help) => {
  const [first, ...others] = cured('nominal: 98', `nominal: ${typed}`);
  expect(others).toEqual([]);
  expect(first?.slice(first.indexOf(': write') + 2)).toBe(help);
});

test.each([
  ['0,5', 'a comma stands before 5 within a number: write the number with a point: .5'],
  [
    '20,000',
    'a comma stands before 000 within a number: leave the comma out where it parts thousands; where it stands for the point, write .000',
  ],
])('{ nominal: %s } among braces', (typed, finding) => {
  const braces = `history: [{ until: 2022-01-01, nominal: ${typed}, unit: N·m }]\n    nominal: 98`;
  expect(cured('nominal: 98', braces)).toEqual([finding]);
});

test.each([
  ['class: 10.9', 'class: 10.9 is read as something else than a text: put it in quotes: "10.9"'],
  ['class: "10.9"', undefined],
])('a fastener of %s', (strength, finding) => {
  const fastener = `fastener: { size: M14×1.5, ${strength} }\n    nominal: 98`;
  expect(cured('nominal: 98', fastener)).toEqual(finding === undefined ? [] : [finding]);
});

test.each([
  ['critical: yes', 'critical: "yes" is neither true nor false: write true or false'],
  ['reviewMonths: 1.5', 'reviewMonths: 1.5 is no whole number: write a whole number, in figures and without a unit'],
  ['reviewMonths: 12', undefined],
  [
    'years: 2019–2021',
    'years: "2019–2021" cannot be used here: years read 2021, 2019-2025, 2022- or -2021, with a plain hyphen: the reference page of this file lists what each key takes',
  ],
])('a row with %s', (line, finding) => {
  expect(cured('nominal: 98', `${line}\n    nominal: 98`)).toEqual(finding === undefined ? [] : [finding]);
});
