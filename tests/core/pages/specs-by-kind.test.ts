import { expect, test } from 'vitest';
import { specsByKind } from '../../../src/core/pages/index.ts';
import { smallShop } from '../../support/shop.ts';

const row = (id: string, years: string, critical = false) => `  - id: ${id}
    title: ${id}
    kind: torque
    nominal: 98
    plusMinus: 5
    unit: N·m
    years: ${years}
    ${critical ? 'critical: true' : 'condition: dry'}
    source: {document: manual, page: 41}
`;

test('what can hurt comes first within its kind, and rows of one spec stay together', () => {
  const head = `machine: {title: Tarn 420, years: 2019-2025, invented: true}
documents:
  manual: {title: Service manual (invented), invented: true}
specs:
`;
  const gap = '  - {id: gap, title: Gap, kind: length, max: 2, unit: mm, source: {document: manual, page: 1}}\n';
  const text =
    head +
    row('cover', '2019-2021') +
    row('axle', '2019-2021') +
    gap +
    row('lever', '2019-2025', true) +
    row('axle', '2022-2025', true) +
    row('cover', '2022-2025');
  const [machine] = smallShop({ 'specs/tarn-420.yaml': text }).shop.machines;
  if (!machine) throw new Error('there is a machine');
  expect(
    specsByKind(machine).map(({ kind, name, rows }) => [
      kind,
      name,
      rows.map(({ id, years }) => `${id} ${years.from}`),
    ]),
  ).toEqual([
    ['torque', 'Torque', ['axle 2019', 'axle 2022', 'lever 2019', 'cover 2019', 'cover 2022']],
    ['length', 'Length', ['gap 2019']],
  ]);
});
