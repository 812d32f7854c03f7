import { expect, test } from 'vitest';
import { lesson, type Sample, SOUND, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { specWords, stepRecords } from '../../../src/core/search/index.ts';

function shopOf(sample: Sample) {
  const { texts, facts } = sampleContent(sample);
  return readShop(texts, facts).shop;
}

test('a record says what a step is, where, when, and with what', () => {
  const [first, second] = stepRecords(shopOf(SOUND));
  expect(first).toMatchObject({
    lesson: { id: 'chain', title: 'Chain' },
    machine: { id: 'tarn-420', title: 'Tarn 420' },
    chapter: { id: 'rear-wheel', title: 'Rear wheel' },
    id: 'crack-the-nut',
    number: '1.1',
    tools: [{ id: 'breaker-bar', title: 'Breaker bar' }],
    specs: [],
    hazards: [],
  });
  // Kept from 0:10 on: 0:30 of the recording is 0:20 of the programme.
  expect(first?.at).toEqual({ start: 20, end: 110 });
  expect(second).toMatchObject({
    number: '1.2',
    specs: [{ id: 'axle-nut', title: 'Rear axle nut' }],
    at: { start: 300, end: 470 },
  });
  expect(second?.also).toContain('Cotter pin');
  // Words found are shown, and a value among them could be somebody else's.
  expect(second?.text).not.toContain('98');
  expect(second?.also).toContain('98 Nm');
});

test('a step without a cue, or cut out, is found but has no time', () => {
  const records = stepRecords(
    shopOf(
      lesson(
        '## A\n<Cue at="0:00:20" />\n\n### No cue\nWords.\n\n### In the cut\n<Cue at="0:05:10" until="0:05:40" />',
      ),
    ),
  );
  expect(records.map(({ id, at }) => [id, at])).toEqual([
    ['no-cue', undefined],
    ['in-the-cut', undefined],
  ]);
});

test('signal words are hazards, worst kept once', () => {
  const [step] = stepRecords(
    shopOf(lesson('## A\n### B\n<Danger>Hot.</Danger>\n\n<Danger>Sharp.</Danger>\n\n<Notice>Dry.</Notice>')),
  );
  expect(step?.hazards).toEqual(['danger', 'notice']);
});

test('a draft is not found', () => {
  const text = (sampleContent(SOUND).texts.get('lessons/chain.mdx') ?? '').replace(
    'title: Chain',
    'title: Chain\ndraft: true',
  );
  expect(stepRecords(shopOf({ files: { 'lessons/chain.mdx': text } }))).toEqual([]);
});

test('each stage of a sequence is found with every way to say its unit', () => {
  const stages = '    stages: [{ nominal: 30, plusMinus: 3, unit: N·m }, { nominal: 60, plusMinus: 5, unit: ° }]\n';
  const table = sampleContent(SOUND)
    .texts.get('specs/tarn-420.yaml')!
    .replace(
      /( {2}- id: axle-nut\n[\s\S]*?)kind: torque\n {4}nominal: 98\n {4}plusMinus: 5\n {4}unit: N·m\n/,
      `$1kind: torque-sequence\n${stages}`,
    );
  const row = shopOf({ files: { 'specs/tarn-420.yaml': table } }).machines[0]!.specs.find(
    ({ id }) => id === 'axle-nut',
  )!;
  // 30 N·m = 22.13 lbf·ft (NIST SP 811).
  for (const wanted of ['22.1 ft-lb', '30 Nm', '60 degrees']) expect(specWords(row)).toContain(wanted);
});

test('a value is found in both systems and with every way to say its unit', () => {
  const row = shopOf(SOUND).machines[0]!.specs.find(({ id }) => id === 'axle-nut')!;
  const words = specWords(row);
  // 98 N·m = 72.28 lbf·ft (NIST SP 811: 1 lbf·ft = 1.355 818 N·m).
  for (const wanted of [
    '98 ± 5 N·m',
    '98 Nm',
    '98Nm',
    '98 newton metres',
    '93 Nm',
    '103 Nm',
    '72.3 ft-lb',
    '72.3 foot-pounds',
  ])
    expect(words.join(' | ')).toContain(wanted);
});
