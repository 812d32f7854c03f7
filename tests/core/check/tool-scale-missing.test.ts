import { expect, test } from 'vitest';
import { replaceIn } from '../../../src/core/check/index.ts';
import { told } from '../../support/told.ts';

const scale = (range: string, resolution = '') =>
  replaceIn('kit.yaml', '    range: {min: 40, max: 200, unit: N·m}\n', `${range}${resolution}`);
const WHOLE = '    range: {min: 40, max: 200, unit: N·m}\n';

test('what of the scale of a torque wrench is missing, and what to add', () => {
  expect(told('tool-scale-missing', scale(WHOLE))).toEqual([]);
  expect(told('tool-scale-missing', scale(''))).toEqual([
    'warning | the tool Torque wrench, large has no range | add range: its scale from min to max',
  ]);
  expect(told('tool-scale-missing', scale('    range: {min: 40, unit: N·m}\n'))).toEqual([
    'warning | the tool Torque wrench, large has only a range from 40 to … | add range: its scale from min to max',
  ]);
});

test('a tool that measures wants its resolution', () => {
  const rule = replaceIn(
    'kit.yaml',
    '  grinder:\n',
    '  rule:\n    title: Steel rule\n    kind: measuring-tool\n  grinder:\n',
  );
  expect(told('tool-scale-missing', rule)).toEqual([
    'warning | the tool Steel rule has no resolution | add resolution: one mark of its scale',
  ]);
});
