import { expect, test } from 'vitest';
import { disagreements } from '../../../src/core/programme/index.ts';
import { correctionsFeed } from '../../../src/node/site/corrections-feed.ts';
import { changedFile, smallShop } from '../../support/shop.ts';

// Values are invented.
const NOW = new Date('2026-11-27T12:00:00Z');
const row = (id: string, rest: string) =>
  `  - {id: ${id}, title: ${id === 'slack' ? 'Chain slack' : 'Axle nut'}, ${rest}, critical: true, source: {document: manual, page: 1}, checkedBy: lead mechanic, checkedOn: 2026-10-03}\n`;
const former = 'history: [{until: 2026-10-01, bulletin: Notice 7, nominal: 98, plusMinus: 5, unit: N·m}]';
const SPECS = `machine:
  title: Tarn 420
  years: 2019-2025
  variants: [{id: road, title: Road}, {id: trail, title: "Trail, tall"}]
documents:
  manual: {title: Service manual}
specs:
${row('axle-nut', 'kind: torque, nominal: 90, plusMinus: 5, unit: N·m, years: 2019-2021')}${row('axle-nut', `kind: torque, nominal: 110, plusMinus: 5, unit: N·m, years: 2022-2025, ${former}`)}${row('slack', 'kind: length, min: 25, max: 35, unit: mm, variants: [road]')}${row('slack', 'kind: length, min: 35, max: 45, unit: mm, variants: [trail]')}`;
const SAID = 'WEBVTT\n\n00:06:12.000 --> 00:06:30.000\nbetween 25 and 35 millimetres of slack\n';

function shopWith(corrections: string) {
  return smallShop({
    'specs/tarn-420.yaml': SPECS,
    ...changedFile(
      'lessons/chain.mdx',
      'Tighten to <Spec of="axle-nut" />.',
      'To <Spec of="axle-nut" />, <Spec of="slack" />.',
    ),
    'media/chain.vtt': SAID,
    'corrections/chain.yaml': `corrections:\n  - {step: tighten-the-nut, at: "0:06:12", on: 2026-11-20, ${corrections}}\n`,
  }).shop;
}

const entry = (corrections: string) =>
  correctionsFeed({ shop: shopWith(corrections), now: NOW } as Parameters<typeof correctionsFeed>[0], undefined, '/')
    .items[0]?.description;

test('the row that a bulletin changed comes first, with until when the words were right, then every other one', () => {
  expect(entry('spec: axle-nut, said: 98 newton metres')).toBe(
    'The recording says “98 newton metres”. Axle nut: ' +
      '2022–2025: 110 ± 5 N·m (81.1 ± 3.6 lbf·ft), critical, said 7 N·m too little, right until 2026-10-01; ' +
      '2019–2021: 90 ± 5 N·m (66.4 ± 3.6 lbf·ft), critical, said 3 N·m too much.',
  );
});

test('words that are right for one variant say so, and how far off they are for the other', () => {
  // What is written into a correction are the words as they are understood.
  const [found] = disagreements(shopWith('spec: axle-nut, said: 98 newton metres')).filter(
    ({ spec }) => spec === 'slack',
  );
  expect(found?.heard.text).toBe('between 25 and 35 millimetres');
  expect(entry(`spec: slack, said: ${found?.heard.text}`)).toBe(
    'The recording says “between 25 and 35 millimetres”. Chain slack: ' +
      'Trail, tall: 35–45 mm (1.38–1.77 in), critical, said 10 mm too little; ' +
      'Road: 25–35 mm (0.99–1.37 in), critical, as said.',
  );
});
