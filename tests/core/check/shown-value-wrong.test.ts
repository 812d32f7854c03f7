import { expect, test } from 'vitest';
import { replaceIn, type Sample } from '../../../src/core/check/index.ts';
import { placesTold, told } from '../../support/told.ts';

const RULE = 'shown-value-wrong';
/** The recording lasts ten minutes. */
const shown = (at: string, text: string, more: Omit<Sample, 'files'> = {}) =>
  replaceIn('recordings/chain.yaml', 'people:', `shows:\n  - {at: "${at}", text: ${text}}\npeople:`, more);

test('what is shown past the end of the recording is told there', () => {
  const late = shown('0:10:00', '98 N·m');
  expect(told(RULE, late)).toEqual([
    'warning | "98 N·m" is shown at 0:10:00, past the end of chain, which lasts 0:10:00 | write the moment of the recording at which the picture shows it',
  ]);
  expect(placesTold(RULE, late)).toEqual(['recordings/chain.yaml:9:27']);
});

test('what is shown before its end is not, nor in footage that is not there, of which nobody knows how long it is', () => {
  expect(told(RULE, shown('0:09:59.9', '98 N·m'))).toEqual([]);
  expect(told(RULE, shown('0:10:00', '98 N·m', { media: { 'media/chain.mp4': 'missing' } }))).toEqual([]);
});

test('where no value can be read in it, that is told', () => {
  expect(told(RULE, shown('0:06:20', 'tight'))).toEqual([
    'warning | at 0:06:20 "tight" is shown, and no value can be read in it, so it is compared with nothing | write the figure with its unit, as the picture shows it, such as 98 N·m',
  ]);
  expect(placesTold(RULE, shown('0:06:20', 'tight'))).toEqual(['recordings/chain.yaml:9:27']);
});

test.each(['M10×1.25', '10W-40'])('%s is a name, and has no value to compare', (name) => {
  expect(told(RULE, shown('0:06:20', name))).toEqual([]);
});
