import { expect, test } from 'vitest';
import { lesson, type Sample, SOUND, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { stepRecords } from '../../../src/core/search/index.ts';

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
  expect(second?.also.join(' | ')).toContain('Cotter pin');
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

test('what a step says keeps its values and reads as sentences; one that differs says for whom each is', () => {
  const text = (sample: Sample) => stepRecords(shopOf(sample)).find(({ id }) => id === 'tighten')?.text;
  const step = '## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\n\n';
  const said = `${step}Nut to <Spec of="axle-nut" />, then look.\n\n<KeyPoint why="it turns">Hold the head.</KeyPoint>\n`;
  expect(text(lesson(said))).toBe('Nut to 98 ± 5 N·m, then look. Hold the head. It turns.');
  const specs = sampleContent(SOUND).texts.get('specs/tarn-420.yaml') ?? '';
  const row = specs.slice(specs.indexOf('  - id: axle-nut'));
  const early = row.replace('title: Rear axle nut', 'title: Rear axle nut\n    years: 2019-2021').replace('98', '90');
  const late = row.replace('title: Rear axle nut', 'title: Rear axle nut\n    years: 2022-2025');
  const files = { ...lesson(said).files, 'specs/tarn-420.yaml': specs.replace(row, `${early}${late}`) };
  expect(text({ files })).toContain('90 ± 5 N·m (2019–2021) or 98 ± 5 N·m (2022–2025), then look.');
});
