import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, sampleContent } from '../../../src/core/check/index.ts';
import { wrenchSettings } from '../../../src/core/pages/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { changedFile } from '../../support/shop.ts';

/**
 * The small shop with a wrench of `lever` 400 mm, a crowfoot of 40 mm in line (or none), and another axle nut. Values are
 * invented; the setting is T · L / (L + E), moments about the fastener: here 10/11 of the torque.
 */
function shopWith({
  range = 'min: 40, max: 200',
  mark = 0.5,
  crowfoot = true,
  torque = 'nominal: 98\n    plusMinus: 5',
}) {
  const { texts, facts } = sampleContent({
    files: {
      'kit.yaml': (changedFile('kit.yaml', 'min: 40, max: 200', range)['kit.yaml'] ?? '').replace(
        'unit: N·m}\n',
        `unit: N·m}\n    resolution: {nominal: ${mark}, unit: N·m}\n    lever: {nominal: 400, unit: mm}\n  crowfoot:\n    title: Crowfoot\n    extension: {nominal: 40, unit: mm}\n`,
      ),
      ...changedFile(
        'specs/tarn-420.yaml',
        'kind: torque\n    nominal: 98\n    plusMinus: 5\n    unit: N·m',
        torque.startsWith('stages')
          ? `kind: torque-sequence\n    ${torque}`
          : `kind: torque\n    ${torque}\n    unit: N·m`,
      ),
      ...(crowfoot
        ? changedFile(
            'lessons/chain.mdx',
            '<Uses tool="torque-wrench" />',
            '<Uses tool="torque-wrench" /> <Uses tool="crowfoot" />',
          )
        : {}),
    },
  });
  const { shop, diagnostics } = readShop(texts, facts);
  const [lesson, machine] = [shop.lessons[0]!, shop.machines[0]!];
  const step = lesson.chapters.flatMap(({ steps }) => steps).find(({ id }) => id === 'tighten-the-nut')!;
  return {
    told: check(shop, diagnostics, { today: SAMPLE_TODAY })
      .filter(({ rule }) => rule.startsWith('wrench'))
      .map(({ rule, message }) => `${rule}: ${message}`),
    settings: wrenchSettings(shop, machine, lesson, step).map(({ text }) => text),
  };
}

test('the scale has to hold what is set, not what the fastener gets', () => {
  // 93 to 103 N·m at the nut is 84.5 to 93.6 N·m on the scale.
  expect(shopWith({ range: 'min: 40, max: 100', crowfoot: false }).told).toEqual([
    'wrench-out-of-range: axle-nut needs 93 to 103 N·m, but the scale of Torque wrench, large goes from 40 to 100 N·m',
  ]);
  expect(shopWith({ range: 'min: 40, max: 100' }).told).toEqual([]);
  expect(shopWith({ range: 'min: 90, max: 200', crowfoot: false }).told).toEqual([]);
  expect(shopWith({ range: 'min: 90, max: 200' }).told).toEqual([
    'wrench-out-of-range: axle-nut needs 93 to 103 N·m, but with Crowfoot in line that is a setting of 84.5 to 93.6 N·m, and the scale of Torque wrench, large goes from 90 to 200 N·m',
  ]);
});

// ISO 6789 tests from 20 % of the maximum: of 450 N·m that is 90.
test('low on the scale is what is set', () => {
  expect(shopWith({ range: 'min: 20, max: 450', crowfoot: false }).told).toEqual([]);
  expect(shopWith({ range: 'min: 20, max: 450' }).told).toEqual([
    'wrench-low-on-scale: axle-nut needs 93 N·m at least, a setting of 84.5 N·m with Crowfoot in line, and Torque wrench, large is accurate only above 90 N·m',
  ]);
});

test('marks are held against the tolerance of what is set', () => {
  expect(shopWith({ mark: 1, crowfoot: false }).told).toEqual([]);
  expect(shopWith({ mark: 1 }).told).toEqual([
    'wrench-too-coarse: the marks of Torque wrench, large are 1 N·m apart, and axle-nut is 98 ± 5 N·m: a tenth of that band is 0.9 N·m with Crowfoot in line',
  ]);
});

test('a fine wrench that cannot be set so high does not make up for a coarse one', () => {
  const files = {
    'kit.yaml': (
      changedFile('kit.yaml', 'resolution: {nominal: 1, unit: N·m}', 'resolution: {nominal: 10, unit: N·m}')[
        'kit.yaml'
      ] ?? ''
    ).replace(
      '  grinder:',
      '  screwdriver:\n    title: Torque screwdriver\n    kind: torque-wrench\n    range: {min: 0.5, max: 5, unit: N·m}\n    resolution: {nominal: 0.05, unit: N·m}\n  grinder:',
    ),
    ...changedFile(
      'lessons/chain.mdx',
      '<Uses tool="torque-wrench" />',
      '<Uses tool="torque-wrench" /> <Uses tool="screwdriver" />',
    ),
  };
  const { texts, facts } = sampleContent({ files });
  const { shop, diagnostics } = readShop(texts, facts);
  expect(check(shop, diagnostics, { today: SAMPLE_TODAY }).map(({ rule }) => rule)).toEqual(['wrench-too-coarse']);
});

test('every torque has its setting: nominal, range, limit, and each stage of a sequence', () => {
  const inLine = 'with Crowfoot in line set Torque wrench, large to';
  expect(shopWith({}).settings).toEqual([
    `Rear axle nut: ${inLine} 89.1 N·m (65.7 lbf·ft), T · L/(L + E) = 98 N·m · 400/(400 + 40)`,
  ]);
  // Inward: 88 · 10/11 = 80.0, 99 · 10/11 = 90.0.
  expect(shopWith({ torque: 'min: 88\n    max: 99' }).settings).toEqual([
    `Rear axle nut: ${inLine} 80.0–90.0 N·m (59.1–66.3 lbf·ft), T · L/(L + E) = (88–99 N·m) · 400/(400 + 40)`,
  ]);
  expect(
    shopWith({ torque: 'stages: [{nominal: 55, unit: N·m}, {nominal: 90, unit: °}, {nominal: 110, unit: N·m}]' })
      .settings,
  ).toEqual([
    `Rear axle nut, stage 1: ${inLine} 50.0 N·m (36.9 lbf·ft), T · L/(L + E) = 55 N·m · 400/(400 + 40)`,
    `Rear axle nut, stage 3: ${inLine} 100.0 N·m (73.8 lbf·ft), T · L/(L + E) = 110 N·m · 400/(400 + 40)`,
  ]);
  expect(shopWith({ crowfoot: false }).settings).toEqual([]);
});
