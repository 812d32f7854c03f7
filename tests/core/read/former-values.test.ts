import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { changedFile } from '../../support/shop.ts';

/** The sound shop's axle nut with a history; values invented. */
function withHistory(rows: string) {
  const files = changedFile(
    'specs/tarn-420.yaml',
    '    nominal: 98\n    plusMinus: 5\n    unit: N·m\n',
    `    nominal: 98\n    plusMinus: 5\n    unit: N·m\n    history:\n${rows}`,
  );
  const { texts, facts } = sampleContent({ files });
  const { shop, diagnostics } = readShop(texts, facts);
  return { row: shop.machines[0]!.specs[0]!, told: check(shop, diagnostics, { today: SAMPLE_TODAY }) };
}

test('former values come the latest first, whatever their order in the file', () => {
  const { row, told } = withHistory(
    '      - {until: 2020-05-31, nominal: 80, unit: N·m}\n      - {until: 2022-01-31, bulletin: Bulletin 22-1, nominal: 90, plusMinus: 4, unit: N·m}\n',
  );
  expect(told).toEqual([]);
  expect(row.former).toEqual([
    {
      until: '2022-01-31',
      bulletin: 'Bulletin 22-1',
      quantity: { kind: 'torque', amount: { nominal: 90, min: 86, max: 94, unit: 'N·m' } },
    },
    { until: '2020-05-31', quantity: { kind: 'torque', amount: { nominal: 80, unit: 'N·m' } } },
  ]);
});

test.each([
  ['{until: 2022-01-31, nominal: 90}', 'unit-missing', 15],
  ['{until: 2022-01-31, nominal: 90, unit: pounds}', 'unit-ambiguous', 15],
  ['{until: 2022-01-31, min: 95, max: 90, unit: N·m}', 'min-above-max', 15],
  ['{until: 2022-01-31, unit: N·m}', 'value-missing', 15],
])('a former value that makes no sense is told where it stands, and the present one stays: %s', (text, rule, line) => {
  const { row, told } = withHistory(`      - ${text}\n`);
  expect(told.map((each) => [each.rule, each.place.start.line])).toEqual([[rule, line]]);
  expect(told[0]?.message).toContain('former value until 2022-01-31');
  expect(row.former).toEqual([{ until: '2022-01-31' }]);
  expect(row.quantity).toBeDefined();
});
