import { describe, expect, test } from 'vitest';
import { both, lesson, replaceIn, type Sample } from '../../../src/core/check/index.ts';
import { axleNut, checked, placesTold, rulesTold, told } from '../../support/told.ts';

const SPOKEN = 'spoken-value-wrong';
const said = (words: string) =>
  replaceIn('media/chain.vtt', '00:06:00.000 --> 00:09:00.000\n[working]', `00:06:12.000 --> 00:09:00.000\n${words}`);
const EIGHTY = said('torque it to eighty newton metres');
const shown = (text: string) =>
  replaceIn('recordings/chain.yaml', 'people:', `shows:\n  - {at: "0:06:20", text: ${text}}\npeople:`);
const told80 = (sample: Sample) => told(SPOKEN, both(EIGHTY, sample));
const whole =
  'warning | at 0:06:12 "eighty newton metres" is said, but axle-nut is 98 ± 5 N·m: 13 N·m too little | compare with the source of the torque; if the recording is wrong, accept a correction: liftside corrections chain --accept | said here: "torque it to eighty newton metres"';

const SOURCE = ['source: {document: manual, page: 41}', 'checkedBy: lead mechanic', 'checkedOn: 2026-10-03'];
/** A row of the table by its lines. */
const rowText = (id: string, ...lines: readonly string[]) =>
  [`  - id: ${id}`, `    title: ${id}`, ...[...lines, ...SOURCE].map((line) => `    ${line}`), ''].join('\n');
/** One row more, and whether the step cites it too. */
const more = (cited: boolean, ...lines: readonly string[]) => {
  const row = rowText('pinch-bolt', ...lines);
  const table = replaceIn('specs/tarn-420.yaml', '  - id: chain-slack\n', `${row}  - id: chain-slack\n`);
  const cite = '<Spec of="axle-nut" />';
  return cited ? both(table, replaceIn('lessons/chain.mdx', cite, `<Spec of="pinch-bolt" />, then ${cite}`)) : table;
};
const torque = (...lines: readonly string[]) => ['kind: torque', ...lines, 'unit: N·m'];
/** The axle nut in two rows, by year. */
const byYear = (first: readonly string[], second: readonly string[]) => {
  const later = axleNut('years: 2022-2025', ...torque(...second)).files['specs/tarn-420.yaml'] ?? '';
  const earlier = rowText('axle-nut', 'years: 2019-2021', ...torque(...first));
  return { files: { 'specs/tarn-420.yaml': later.replace('specs:\n', `specs:\n${earlier}`) } };
};

test('says when, what, how far off, where it is said and what to do', () => {
  expect(told80({ files: {} })).toEqual([whole]);
  // Over two lines of a caption.
  expect(told(SPOKEN, said('torque it to eighty newton\nmetres'))).toEqual([whole]);
});

test('what is shown is told in one line too', () => {
  const [first] = told('shown-value-wrong', shown('"80   N·m"'));
  expect(first).toContain('at 0:06:20 "80 N·m" is shown, but axle-nut is 98 ± 5 N·m: 13 N·m too little | ');
  expect(told(SPOKEN, shown('80 N·m'))).toEqual([]);
});

test('says which unit may have been taken for another', () => {
  const [first] = told(SPOKEN, said('torque it to ninety-eight foot-pounds'));
  expect(first).toContain('98 ± 5 N·m: 30 N·m too much, as if lbf·ft were taken for N·m | ');
});

test('says until when it was right, where a bulletin has changed the value', () => {
  const [first] = told80(
    axleNut('history:', '  - {until: 2022-01-01, nominal: 80, unit: N·m}', ...torque('nominal: 98')),
  );
  expect(first).toContain('axle-nut is 98 N·m: 18 N·m too little, right until 2022-01-01 | ');
});

test('names each row of that id, and the machines it is for', () => {
  const [first] = told80(byYear(['nominal: 98'], ['nominal: 105']));
  expect(first).toContain(
    'axle-nut is 98 N·m for 2019–2021: 18 N·m too little; and 105 N·m for 2022–2025: 25 N·m too little | ',
  );
});

test('a wrong value that can hurt someone is an error', () => {
  const [first] = told80(axleNut('critical: true', ...torque('nominal: 98', 'plusMinus: 5')));
  expect(first).toBe(whole.replace('warning', 'error'));
});

describe('stands where', () => {
  test('the step cites the row, whichever it cites first', () => {
    const sample = both(EIGHTY, more(true, ...torque('nominal: 60', 'plusMinus: 5')));
    expect(placesTold(SPOKEN, sample)).toEqual(['lessons/chain.mdx:17:106']);
  });

  test('the step begins that cites none', () => {
    const uncited = lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:06:10" />\n\nAs he says.');
    expect(placesTold(SPOKEN, both(EIGHTY, uncited))).toEqual(['lessons/chain.mdx:9:1']);
  });
});

describe('waits for a row that the words may be right for', () => {
  const DOUBTED = ['fastener: {size: M8, class: "8.8"}', ...torque('nominal: 60', 'plusMinus: 5')];

  test('a cited one that cannot be read', () => {
    expect(told80(axleNut(...torque('nominal: ninety')))).toEqual([]);
    expect(told80(more(true, ...torque('nominal: ninety')))).toEqual([]);
    expect(told80(more(false, ...torque('nominal: ninety')))).toEqual([whole]);
  });

  test('a cited one whose own numbers contradict each other', () => {
    expect(told80(more(true, ...torque('min: 90', 'max: 75')))).toEqual([]);
    expect(told80(more(false, ...torque('min: 90', 'max: 75')))).toEqual([whole]);
    expect(told80(more(true, ...torque('nominal: 60', 'min: 70', 'max: 75')))).toEqual([]);
    expect(told80(more(true, ...torque('nominal: 60', 'plusMinus: 5')))).toEqual([whole]);
  });

  test('any such one, where the step cites none', () => {
    const uncited = lesson('## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:06:10" />\n\nAs he says.');
    const contradicts = more(false, ...torque('min: 90', 'max: 75'));
    expect(told80(uncited)).toHaveLength(1);
    expect(told80(both(uncited, contradicts))).toEqual([]);
    // A sound one is no reason to wait, and one that is merely doubted says another value.
    expect(told80(both(uncited, more(false, ...DOUBTED)))).toHaveLength(1);
  });

  test('a cited one of its kind that is doubted', () => {
    expect(rulesTold(both(EIGHTY, more(true, ...DOUBTED)))).toEqual([`torque-unlikely (${SPOKEN})`]);
    expect(told80(more(false, ...DOUBTED))).toEqual([whole]);
    // A thread that is not listed makes each value of its row doubtful, those of a sequence too.
    const sequence = ['kind: torque-sequence', 'stages:', '  - {nominal: 50, unit: N·m}', '  - {nominal: 90, unit: °}'];
    expect(told80(more(true, 'fastener: {size: M14×1.75}', ...sequence))).toEqual([]);
    // What is said is no length.
    const length = ['fastener: {size: M14×1.75}', 'kind: length', 'nominal: 60', 'plusMinus: 5', 'unit: mm'];
    expect(checked(more(true, ...length)).map(({ rule }) => rule)).toContain('thread-unlikely');
    expect(told80(more(true, ...length))).toEqual([whole]);
  });

  test('its own row, where that is doubted', () => {
    const row = axleNut('fastener: {size: M8, class: "8.8"}', ...torque('nominal: 98', 'plusMinus: 5'));
    expect(rulesTold(both(EIGHTY, row))).toEqual([`torque-unlikely (${SPOKEN})`]);
  });
});
