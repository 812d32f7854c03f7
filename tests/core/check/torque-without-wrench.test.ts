import { describe, expect, test } from 'vitest';
import { both, lesson, replaceIn, type Sample } from '../../../src/core/check/index.ts';
import { axleNut, placesTold, rulesTold, SEQUENCE, told } from '../../support/told.ts';

const RULE = 'torque-without-wrench';

/** A step that cites something, and uses this. */
const step = (cites: string, uses = '<Uses tool="breaker-bar" />') =>
  lesson(`## Rear wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\n\n${uses} To ${cites}.`);
const NO_WRENCH = step('<Spec of="axle-nut" />');
/** The step uses the breaker bar, of which the kit says this too. */
const bar = (...lines: readonly string[]): Sample =>
  both(
    NO_WRENCH,
    replaceIn(
      'kit.yaml',
      '    title: Breaker bar\n',
      `    title: Breaker bar\n${lines.map((l) => `    ${l}\n`).join('')}`,
    ),
  );

test('says what to add, at the value', () => {
  expect(told(RULE, NO_WRENCH)).toEqual([
    'error | "Tighten" tightens to axle-nut, but uses no torque wrench | add <Uses tool="…" /> with a torque wrench of the kit',
  ]);
  expect(placesTold(RULE, NO_WRENCH)).toEqual(['lessons/chain.mdx:12:38']);
});

test('a sequence of torques needs one too; a length, and a reading, need none', () => {
  expect(told(RULE, both(NO_WRENCH, axleNut(...SEQUENCE)))).toHaveLength(1);
  expect(told(RULE, step('<Spec of="chain-slack" />'))).toEqual([]);
  expect(told(RULE, step('<Spec of="axle-nut" measured />'))).toEqual([]);
});

test('every torque of the step is told', () => {
  expect(told(RULE, step('<Spec of="axle-nut" measured />, then <Spec of="axle-nut" />'))).toHaveLength(1);
});

describe('a tool with a scale of torque', () => {
  test('may be the wrench where its kind is not said; that is told where the kit names it', () => {
    expect(rulesTold(bar('range: {min: 40, max: 200, unit: N·m}'))).toEqual(['tool-kind-missing']);
    // Beside another tool.
    const both2 = both(
      bar('range: {min: 40, max: 200, unit: lbf·ft}'),
      step('<Spec of="axle-nut" />', '<Uses tool="grinder" /> <Uses tool="breaker-bar" />'),
    );
    expect(told(RULE, both2)).toEqual([]);
  });

  test('is none where its kind is said, or its scale is of something else', () => {
    expect(told(RULE, bar('kind: other', 'range: {min: 40, max: 200, unit: N·m}'))).toHaveLength(1);
    expect(told(RULE, bar('range: {min: 0, max: 10, unit: bar}'))).toHaveLength(1);
    expect(told(RULE, bar('range: {min: 0, max: 10, unit: mm}'))).toHaveLength(1);
  });

  test('is no part of the same name', () => {
    const kit = replaceIn(
      'kit.yaml',
      '  cotter-pin:\n',
      '  torque-wrench:\n    title: Beam of a wrench\n  cotter-pin:\n',
    );
    const uses = step('<Spec of="axle-nut" />', '<Uses part="torque-wrench" />');
    expect(told(RULE, both(kit, uses))).toHaveLength(1);
  });
});

test('a kit without tools has no wrench', () => {
  const kit = { files: { 'kit.yaml': 'parts:\n  cotter-pin:\n    title: Cotter pin\n' } };
  expect(told(RULE, both(step('<Spec of="axle-nut" />', '<Uses part="cotter-pin" />'), kit))).toHaveLength(1);
  expect(told(RULE, both(NO_WRENCH, kit))).toHaveLength(1);
});

test('nobody is blamed for a kit, or a tool of it, that cannot be read', () => {
  expect(told(RULE, { ...NO_WRENCH, unreadable: { 'kit.yaml': 'no right to' } })).toEqual([]);
  const misspelt = replaceIn('kit.yaml', '    kind: torque-wrench\n', '    kind: torque-wrnch\n');
  expect(told(RULE, misspelt)).toEqual([]);
  // Another tool that cannot be read says nothing of this step.
  expect(told(RULE, both(NO_WRENCH, misspelt))).toHaveLength(1);
});

test('a row that cannot be read is not called a torque', () => {
  const wrong = (...row: readonly string[]) => both(NO_WRENCH, axleNut('kind: torque', ...row, 'unit: N·m'));
  expect(told(RULE, wrong('nominal: ninety'))).toEqual([]);
  expect(told(RULE, wrong('min: 98', 'max: 90'))).toEqual([]);
});
