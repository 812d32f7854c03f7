import { describe, expect, test } from 'vitest';
import {
  both,
  check,
  lesson,
  replaceIn,
  SAMPLE_TODAY,
  type Sample,
  sampleContent,
} from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

// What the rules of torques and of values said tell in full, and what keeps each of them silent. Values are invented.

/** What is told of a sample by the rules of one name: severity, message, help and what is shown beside it. */
function told(rule: string, sample: Sample): string[] {
  const { texts, facts, unreadable } = sampleContent(sample);
  const { shop, diagnostics } = readShop(texts, facts, unreadable);
  return check(shop, diagnostics, { today: SAMPLE_TODAY })
    .filter((each) => each.rule === rule)
    .map(({ severity, message, help, see }) => [severity, message, help, ...(see ? [see.note] : [])].join(' | '));
}

const NUT = '    kind: torque\n    nominal: 98\n    plusMinus: 5\n    unit: N·m';
const nut = (row: string) => replaceIn('specs/tarn-420.yaml', NUT, row);
const SEQUENCE =
  '    kind: torque-sequence\n    stages:\n      - {nominal: 50, unit: N·m}\n      - {nominal: 98, plusMinus: 5, unit: N·m}';
const MEASURED = replaceIn('lessons/chain.mdx', '<Spec of="axle-nut" />', '<Spec of="axle-nut" measured />');

describe('torque-unlikely', () => {
  const on = (size: string, row: string) =>
    nut(`    fastener: {size: ${size}, class: "8.8"}\n    kind: torque\n${row}`);

  // F = T/(K·d) with K 0.2 (Shigley, 8-8); M8 has 36.6 mm², 8.8 a proof stress of 580 MPa (ISO 898-1:2013, tables 3 and 5).
  test('says how much, and which units would explain it', () => {
    expect(told('torque-unlikely', on('M8', '    nominal: 200\n    unit: N·m'))).toEqual([
      'warning | axle-nut: 200 N·m loads M8 8.8 to 589 % of its proof load, which is unusually high; 200 lbf·in would be 67 %, 200 kgf·cm would be 58 % | compare with the source; F = T/(K·d) = 200 N·m/(0.2 × 8 mm) = 125.0 kN, 589 % of the proof load of 21.2 kN (36.6 mm² of M8×1.25)',
    ]);
  });

  test('where no unit explains it, it ends there', () => {
    const [first = ''] = told('torque-unlikely', on('M8', '    nominal: 98\n    plusMinus: 5\n    unit: N·m'));
    expect(first).toContain(
      '103 N·m loads M8 8.8 to 303 % of its proof load, which is unusually high | compare with the source; ',
    );
  });

  test('a row with an upper limit alone is judged by it', () => {
    const [first = ''] = told('torque-unlikely', on('M8', '    max: 98\n    unit: N·m'));
    expect(first).toContain('98 N·m loads M8 8.8 to 288 % of its proof load, which is unusually high | ');
  });

  test('stages of a sequence, and a size that no table holds, are not judged', () => {
    expect(told('torque-unlikely', nut(`    fastener: {size: M6, class: "8.8"}\n${SEQUENCE}`))).toEqual([]);
    expect(told('torque-unlikely', on('M7.3', '    nominal: 900\n    unit: N·m'))).toEqual([]);
  });
});

describe('torque-without-wrench', () => {
  const without = (cites: string) =>
    lesson(
      `## Rear wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\n\n<Uses tool="breaker-bar" /> To ${cites}.`,
    );
  const NO_WRENCH = without('<Spec of="axle-nut" />');

  test('says what to add', () => {
    expect(told('torque-without-wrench', NO_WRENCH)).toEqual([
      'error | "Tighten" tightens to axle-nut, but uses no torque wrench | add <Uses tool="…" /> with a torque wrench of the kit',
    ]);
  });

  test('a sequence of torques needs one too; a length, and a reading, need none', () => {
    expect(told('torque-without-wrench', both(NO_WRENCH, nut(SEQUENCE)))).toHaveLength(1);
    expect(told('torque-without-wrench', without('<Spec of="chain-slack" />'))).toEqual([]);
    expect(told('torque-without-wrench', without('<Spec of="axle-nut" measured />'))).toEqual([]);
  });

  test('nobody is blamed for a kit, or a tool of it, that cannot be read', () => {
    expect(told('torque-without-wrench', { ...NO_WRENCH, unreadable: { 'kit.yaml': 'no right to' } })).toEqual([]);
    const misspelt = replaceIn('kit.yaml', '    kind: torque-wrench\n', '    kind: torque-wrnch\n');
    expect(told('torque-without-wrench', misspelt)).toEqual([]);
    // Another tool that cannot be read says nothing of this step.
    expect(told('torque-without-wrench', both(NO_WRENCH, misspelt))).toHaveLength(1);
  });

  test('a row that cannot be read is not called a torque', () => {
    const row = NUT.replace('98', 'ninety');
    expect(told('torque-without-wrench', both(NO_WRENCH, nut(row)))).toEqual([]);
  });
});

const RANGE = '    range: {min: 40, max: 200, unit: N·m}\n    resolution: {nominal: 1, unit: N·m}\n';
const scale = (min: number, max: number, mark = 1) =>
  `    range: {min: ${min}, max: ${max}, unit: N·m}\n    resolution: {nominal: ${mark}, unit: N·m}\n`;
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
    const [first] = told('wrench-out-of-range', both(wrench(scale(5, 60)), nut(NUT.replace('    plusMinus: 5\n', ''))));
    expect(first).toContain('axle-nut needs 98 N·m, but');
    expect(told('wrench-out-of-range', both(wrench(scale(5, 60)), MEASURED))).toEqual([]);
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

  test('a limit alone leaves no band to divide, and a reading sets none', () => {
    for (const limit of ['min', 'max'])
      expect(
        told(
          'wrench-too-coarse',
          both(wrench(scale(40, 200, 5)), nut(`    kind: torque\n    ${limit}: 98\n    unit: N·m`)),
        ),
      ).toEqual([]);
    expect(told('wrench-too-coarse', both(wrench(scale(40, 200, 5)), MEASURED))).toEqual([]);
  });
});

describe('spoken-value-wrong', () => {
  const said = (words: string) =>
    replaceIn('media/chain.vtt', '00:06:00.000 --> 00:09:00.000\n[working]', `00:06:12.000 --> 00:09:00.000\n${words}`);
  const EIGHTY = said('torque it to eighty newton metres');
  const told80 = (sample: Sample) => told('spoken-value-wrong', both(EIGHTY, sample));
  const whole =
    'warning | at 0:06:12 "eighty newton metres" is said, but axle-nut is 98 ± 5 N·m: 13 N·m too little | compare with the source of the torque; if the recording is wrong, accept a correction: liftside corrections chain --accept | said here: "torque it to eighty newton metres"';
  /** One row more, and whether the step cites it too. */
  const row = (values: string, cited: boolean) => {
    const more = `  - id: pinch-bolt\n    title: Pinch bolt\n    kind: torque\n${values}    unit: N·m\n    source: {document: manual, page: 41}\n    checkedBy: lead mechanic\n    checkedOn: 2026-10-03\n`;
    const table = replaceIn('specs/tarn-420.yaml', '  - id: chain-slack\n', `${more}  - id: chain-slack\n`);
    const cite = '<Spec of="axle-nut" />';
    return cited ? both(table, replaceIn('lessons/chain.mdx', cite, `${cite} and <Spec of="pinch-bolt" />`)) : table;
  };

  test('says when, what, how far off, where it is said and what to do', () => {
    expect(told80({ files: {} })).toEqual([whole]);
    // Over two lines of a caption.
    expect(told('spoken-value-wrong', said('torque it to eighty newton\nmetres'))).toEqual([whole]);
  });

  test('says which unit may have been taken for another', () => {
    const [first] = told('spoken-value-wrong', said('torque it to ninety-eight foot-pounds'));
    expect(first).toContain('98 ± 5 N·m: 30 N·m too much, as if lbf·ft were taken for N·m | ');
  });

  test('waits for a cited row that cannot be read: it may be the one that was meant', () => {
    expect(told80(nut(NUT.replace('98', 'ninety')))).toEqual([]);
    expect(told80(row('    nominal: ninety\n', true))).toEqual([]);
    expect(told80(row('    nominal: ninety\n', false))).toEqual([whole]);
  });

  test('waits for a cited row of its kind whose own numbers contradict each other', () => {
    expect(told80(row('    min: 90\n    max: 75\n', true))).toEqual([]);
    expect(told80(row('    min: 90\n    max: 75\n', false))).toEqual([whole]);
    expect(told80(row('    nominal: 60\n    min: 70\n    max: 75\n', true))).toEqual([]);
    expect(told80(row('    nominal: 60\n    plusMinus: 5\n', true))).toEqual([whole]);
  });

  test('stands where the step cites the row', () => {
    const { texts, facts } = sampleContent(both(EIGHTY, row('    nominal: 60\n    plusMinus: 5\n', true)));
    const { shop, diagnostics } = readShop(texts, facts);
    const found = check(shop, diagnostics, { today: SAMPLE_TODAY }).find((each) => each.rule === 'spoken-value-wrong');
    expect(found?.place).toMatchObject({ file: 'lessons/chain.mdx', start: { line: 17, column: 75 } });
  });
});
