import { expect, test } from 'vitest';
import { programmeCards } from '../../../src/core/programme/index.ts';
import { toSeconds } from '../../../src/core/time/index.ts';
import { changedFile, smallShop } from '../../support/shop.ts';

const CORRECTION = {
  'corrections/chain.yaml':
    'corrections:\n  - {step: tighten-the-nut, at: "0:07:00", spec: axle-nut, said: one hundred and ten, on: 2026-11-20}\n',
};

function cardsOf(files: Readonly<Record<string, string>>) {
  const { shop, recording } = smallShop(files);
  return programmeCards(shop, recording).map(({ card, at }) => ({
    ...card,
    start: toSeconds(at.start),
    end: toSeconds(at.end),
  }));
}

// The edit list keeps 0:10-5:00 and 6:00-9:00: 6:10 is 300 s into the programme, 7:00 is 350 s, its end 470 s.
test('cards come at the cue that cites the spec, and from the moment of a correction until its step ends', () => {
  const [safety, step, correction, ...others] = cardsOf(CORRECTION);
  expect(others).toEqual([]);
  expect([safety?.kind, safety?.start]).toEqual(['safety', 0]);
  expect([step?.kind, step?.head, step?.start]).toEqual(['step', 'Tighten the nut', 300]);
  expect(step?.end).toBeGreaterThanOrEqual(305);
  expect(step?.end).toBeLessThanOrEqual(320);
  expect([correction?.kind, correction?.start, correction?.end]).toEqual(['correction', 350, 470]);
  expect(correction?.texts).toEqual(['The recording says “one hundred and ten”.']);
});

// 1 lbf·ft = 1.355 818 N·m (NIST SP 811, appendix B): 98 N·m = 72.28, 5 N·m = 3.69.
test('values stand in both unit systems with their source, and every card says what decides', () => {
  const cards = cardsOf(CORRECTION);
  const values = cards.flatMap((card) => card.values);
  expect(values).toHaveLength(2);
  for (const { primary, secondary, source } of values) {
    expect(primary).toBe('98 ± 5 N·m');
    expect(secondary).toMatch(/^72\.3 ± 3\.[67] lbf·ft$/);
    expect(source).toBe('Service manual (invented), p. 41');
  }
  for (const { caution } of cards) expect(caution).toContain('service manual for the exact model and year decides');
});

test('a value without a source is not shown', () => {
  const cards = cardsOf(changedFile('specs/tarn-420.yaml', '    source: {document: manual, page: 41}\n', ''));
  expect(cards.flatMap((card) => card.values)).toEqual([{ title: 'Rear axle nut' }]);
});

test('signal words of a step are on its card, and a step that is cut has none', () => {
  const body = changedFile(
    'lessons/chain.mdx',
    'Crack it on the wheels.',
    'Crack it on the wheels.\n\n<Warning>It falls.</Warning>',
  );
  const heads = (edit: string) =>
    cardsOf({ ...body, ...changedFile('recordings/chain.yaml', '- {in: "0:00:10", out: "0:05:00"}', edit) }).flatMap(
      ({ kind, head, signals }) =>
        kind === 'step' ? [[head, ...signals.map(({ word, text }) => `${word}: ${text}`)]] : [],
    );
  expect(heads('- {in: "0:00:10", out: "0:05:00"}')).toEqual([
    ['Crack the nut', 'warning: It falls.'],
    ['Tighten the nut'],
  ]);
  expect(heads('- {in: "0:03:00", out: "0:05:00"}')).toEqual([['Tighten the nut']]);
});
