import { describe, expect, test } from 'vitest';
import { both, replaceIn } from '../../../src/core/check/index.ts';
import { axleNut, placesTold, rulesTold, told } from '../../support/told.ts';

// The scales of torque wrenches against the torques that they set. The torque is 98 ± 5 N·m, invented as the shop is.

const MEASURED = replaceIn('lessons/chain.mdx', '<Spec of="axle-nut" />', '<Spec of="axle-nut" measured />');
const NUT_M8 = ['fastener: {size: M8, class: "8.8"}', 'kind: torque', 'nominal: 98', 'plusMinus: 5', 'unit: N·m'];
const RANGE = '    range: {min: 40, max: 200, unit: N·m}\n    resolution: {nominal: 1, unit: N·m}\n';
const scale = (min: number, max: number, mark = 1) =>
  `    range: {min: ${min}, max: ${max}, unit: N·m}\n    resolution: {nominal: ${mark}, unit: N·m}\n`;
const MARK = '    resolution: {nominal: 1, unit: N·m}\n';
/** The shop's wrench with another scale. */
const wrench = (own: string) => replaceIn('kit.yaml', RANGE, own);
/** Two wrenches at the step. */
const wrenches = (large: string, small: string) => {
  const more = `    title: Wrench, small\n    kind: torque-wrench\n${small}`;
  return both(
    replaceIn('kit.yaml', RANGE, `${large}  small:\n${more}`),
    replaceIn(
      'lessons/chain.mdx',
      '<Uses tool="torque-wrench" />',
      '<Uses tool="torque-wrench" /> <Uses tool="small" />',
    ),
  );
};

describe('wrench-out-of-range', () => {
  test.each([
    [93, 103, 0],
    [93.1, 103, 1],
    [93, 102.9, 1],
  ])('a scale from %d to %d N·m under 98 ± 5', (min, max, count) => {
    expect(told('wrench-out-of-range', wrench(scale(min, max)))).toHaveLength(count);
  });

  test('names every wrench of the step, and one that holds it will do', () => {
    expect(told('wrench-out-of-range', wrenches(scale(5, 60), scale(110, 300)))).toEqual([
      'error | axle-nut needs 93 to 103 N·m, but the scale of Torque wrench, large goes from 5 to 60 N·m, the scale of Wrench, small goes from 110 to 300 N·m | use a wrench whose scale holds the whole tolerance',
    ]);
    expect(told('wrench-out-of-range', wrenches(scale(5, 60), scale(40, 200)))).toEqual([]);
  });

  test('one value is told as one, and a reading sets no wrench', () => {
    const [first] = told(
      'wrench-out-of-range',
      both(wrench(scale(5, 60)), axleNut('kind: torque', 'nominal: 98', 'unit: N·m')),
    );
    expect(first).toContain('axle-nut needs 98 N·m, but');
    expect(told('wrench-out-of-range', both(wrench(scale(5, 60)), MEASURED))).toEqual([]);
  });

  test('stands at the value; where no wrench is used, another rule tells', () => {
    expect(placesTold('wrench-out-of-range', wrench(scale(5, 60)))).toEqual(['lessons/chain.mdx:17:75']);
    const none = replaceIn('lessons/chain.mdx', '<Uses tool="torque-wrench" />', '');
    expect(rulesTold(none)).toEqual(['torque-without-wrench']);
  });

  // In N·m (NIST SP 811, appendix B): lbf·ft 1.355 818, so 93 is 68.6 and 103 is 76.0.
  test.each([
    ['{min: 68.5, max: 76, unit: lbf·ft}', 0],
    ['{min: 68.7, max: 76, unit: lbf·ft}', 1],
    ['{min: 68.5, max: 75.9, unit: ft-lb}', 1],
  ])('98 ± 5 N·m on a scale of %s', (range, count) => {
    expect(told('wrench-out-of-range', wrench(`    range: ${range}\n${MARK}`))).toHaveLength(count);
  });

  test('a scale without one end is held against the other, and that the end is missing is told first', () => {
    const scaleOf = (range: string) => rulesTold(wrench(`    range: {${range}, unit: N·m}\n${MARK}`));
    expect(scaleOf('min: 200')).toEqual(['tool-scale-missing']);
    expect(scaleOf('max: 103')).toEqual(['tool-scale-missing']);
    expect(scaleOf('max: 102')).toEqual(['tool-scale-missing (wrench-out-of-range)']);
  });

  test('rounding of the converted limits is no fault', () => {
    const inPounds = (scaled: string) =>
      both(
        wrench(`    range: ${scaled}\n${MARK}`),
        axleNut('kind: torque', 'min: 68.59', 'max: 75.97', 'unit: lbf·ft'),
      );
    expect(told('wrench-out-of-range', inPounds('{min: 823.08, max: 911.64, unit: lbf·in}'))).toEqual([]);
    expect(told('wrench-out-of-range', inPounds('{min: 823.09, max: 911.64, unit: lbf·in}'))).toHaveLength(1);
    expect(told('wrench-out-of-range', inPounds('{min: 823.08, max: 911.63, unit: lbf·in}'))).toHaveLength(1);
  });

  test('is told with the doubt about the torque, and once for all that one wrench does not serve', () => {
    expect(rulesTold(both(wrench(scale(5, 60)), axleNut(...NUT_M8)))).toEqual([
      'torque-unlikely (wrench-out-of-range)',
    ]);
    const twice = replaceIn(
      'lessons/chain.mdx',
      '<Spec of="axle-nut" />',
      '<Spec of="axle-nut" />, later <Spec of="axle-nut" />',
    );
    expect(rulesTold(both(wrench(scale(5, 60)), twice))).toEqual(['wrench-out-of-range (wrench-out-of-range)']);
  });

  test('an adapter lengthens one wrench, and not the other that is used beside it', () => {
    // Setting over torque is L/(L + E), moments about the fastener: 400/440 here, so that 93 to 103 N·m is 84.5 to 93.6.
    const lever = '    lever: {nominal: 400, unit: mm}\n';
    const adapter = '  crowfoot:\n    title: Crowfoot\n    extension: {nominal: 40, unit: mm}\n';
    const small = `  small:\n    title: Wrench, small\n    kind: torque-wrench\n${scale(5, 60)}`;
    const sample = both(
      replaceIn('kit.yaml', RANGE, `${scale(5, 60)}${lever}${small}${adapter}`),
      replaceIn(
        'lessons/chain.mdx',
        '<Uses tool="torque-wrench" />',
        '<Uses tool="torque-wrench" /> <Uses tool="small" /> <Uses tool="crowfoot" />',
      ),
    );
    expect(told('wrench-out-of-range', sample)[0]).toContain(
      'with Crowfoot in line that is a setting of 84.5 to 93.6 N·m, and the scale of Torque wrench, large goes from 5 to 60 N·m, the scale of Wrench, small goes from 5 to 60 N·m | ',
    );
  });

  test('a tool that is no torque wrench is none, whatever its range', () => {
    const other = `  small:\n    title: Torque meter\n    kind: other\n${scale(5, 60)}`;
    const uses = replaceIn(
      'lessons/chain.mdx',
      '<Uses tool="torque-wrench" />',
      '<Uses tool="torque-wrench" /> <Uses tool="small" />',
    );
    const [first] = told('wrench-out-of-range', both(replaceIn('kit.yaml', RANGE, `${scale(110, 300)}${other}`), uses));
    expect(first).not.toContain('Torque meter');
  });
});

// ISO 6789-1: torque wrenches are tested from 20 % of their maximum on.
describe('wrench-low-on-scale', () => {
  test.each([
    [465, 0],
    [465.5, 1],
  ])('93 N·m on a scale up to %d', (max, count) => {
    expect(told('wrench-low-on-scale', wrench(scale(40, max)))).toHaveLength(count);
  });

  test('of two that are too large the nearer is named; a smaller one will do; a reading sets none', () => {
    const nearer =
      'warning | axle-nut needs 93 N·m at least, and Wrench, small is accurate only above 100 N·m | use a smaller wrench, so that the torque lies between 20 % and 100 % of its maximum';
    expect(told('wrench-low-on-scale', wrenches(scale(40, 600), scale(40, 500)))).toEqual([nearer]);
    expect(told('wrench-low-on-scale', wrenches(scale(40, 500), scale(40, 600)))).toEqual([
      nearer.replace('Wrench, small', 'Torque wrench, large'),
    ]);
    expect(told('wrench-low-on-scale', wrenches(scale(40, 600), scale(40, 300)))).toEqual([]);
    expect(told('wrench-low-on-scale', both(wrench(scale(40, 600)), MEASURED))).toEqual([]);
  });
});

describe('wrench-too-coarse', () => {
  const finer =
    'warning | the marks of Wrench, small are 2 N·m apart, and axle-nut is 98 ± 5 N·m: a tenth of that band is 1 N·m | use a wrench with finer marks';

  test('of two that are too coarse the finer is named, and one that is fine enough will do', () => {
    expect(told('wrench-too-coarse', wrenches(scale(40, 200, 3), scale(40, 200, 2)))).toEqual([finer]);
    expect(told('wrench-too-coarse', wrenches(scale(40, 200, 2), scale(40, 200, 3)))).toEqual([
      finer.replace('Wrench, small', 'Torque wrench, large'),
    ]);
    expect(told('wrench-too-coarse', wrenches(scale(40, 200, 3), scale(40, 200, 1)))).toEqual([]);
    // One that cannot be set there is no help.
    expect(told('wrench-too-coarse', wrenches(scale(40, 200, 3), scale(5, 60, 0.5)))).toHaveLength(1);
  });

  test('marks that nobody has written down may be fine enough', () => {
    expect(
      told('wrench-too-coarse', wrenches(scale(40, 200, 3), '    range: {min: 40, max: 200, unit: N·m}\n')),
    ).toEqual([]);
  });

  // 0.74 lbf·ft is 1.003 N·m, 0.73 is 0.990 (NIST SP 811, appendix B).
  test.each([
    ['1', 'N·m', 0],
    ['1.01', 'N·m', 1],
    ['0.73', 'lbf·ft', 0],
    ['0.74', 'ft-lb', 1],
  ])('marks of %s %s under a tenth of 10 N·m', (mark, unit, count) => {
    const range = '    range: {min: 40, max: 200, unit: N·m}\n';
    expect(
      told('wrench-too-coarse', wrench(`${range}    resolution: {nominal: ${mark}, unit: ${unit}}\n`)),
    ).toHaveLength(count);
  });

  test('a limit alone leaves no band to divide, and a reading sets none', () => {
    for (const limit of ['min', 'max'])
      expect(
        told(
          'wrench-too-coarse',
          both(wrench(scale(40, 200, 5)), axleNut('kind: torque', `${limit}: 98`, 'unit: N·m')),
        ),
      ).toEqual([]);
    expect(told('wrench-too-coarse', both(wrench(scale(40, 200, 5)), MEASURED))).toEqual([]);
  });
});
