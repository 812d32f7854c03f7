import { expect, test } from 'vitest';
import { mean } from '../../src/core/fit/plan/estimate.ts';
import { normalCdf } from '../../src/core/fit/risk/normal.ts';
import { published } from '../support/published.ts';
import copied from './estimates.json' with { type: 'json' };

const reference = published(copied);

const fraction = (text: string) => {
  const [over = 0, under = 1] = text.split('/').map(Number);
  return over / under;
};

test('three-point estimates of a worked example: mean of every activity, mean and end of the critical path', () => {
  const example =
    reference.values['Hillier and Lieberman, Introduction to Operations Research, 7th ed., 2001, section 10.4'];
  let centre = 0;
  for (const { id, a, m, b, mean: printedMean } of example.activities) {
    const estimate = { least: a, likely: m, most: b };
    expect(mean(estimate), id).toBeCloseTo(fraction(printedMean), 12);
    if ([...example.criticalPath].includes(id)) centre += mean(estimate);
  }
  expect(centre).toBeCloseTo(fraction(example.mean), 12);
  const deviation = Math.sqrt(fraction(example.variance));
  for (const { by, p } of example.probabilities) expect(normalCdf((by - centre) / deviation)).toBeCloseTo(p, 4);
});

test('the standard normal distribution', () => {
  const table =
    reference.values['Abramowitz and Stegun, Handbook of Mathematical Functions, 10th printing, 1972, table 26.1'];
  for (const { z, p } of table) expect(normalCdf(z), `${z}`).toBeCloseTo(p, 5);
});

test('every published value is compared', () => expect(reference.unread()).toEqual([]));
