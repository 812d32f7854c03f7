import { describe, expect, test } from 'vitest';
import { check, SAMPLE_TODAY, sampleContent } from '../../../src/core/check/index.ts';
import { cues } from '../../../src/core/check/rules/captions.ts';
import { readShop } from '../../../src/core/read/index.ts';
import published from './captions.json' with { type: 'json' };

// captions.json, `captions`: words a minute of Ofcom (as reported by BBC R&D, 2015), the BBC subtitle guidelines and
// the DCMP Captioning Key; shortest time and longest line of the DCMP Captioning Key.
const { rates, rateExamples, minSeconds, charactersPerLine } = published.captions;
const source = (name: string) => rates.find((rate) => rate.source.startsWith(name));

/** What is told of one caption at 0:12. */
function told(seconds: number, words: string) {
  const sample = cues(
    `00:12.000 --> 00:${(12 + seconds).toFixed(3).padStart(6, '0')}\n${words}`,
    '\n00:45.000 --> 09:00.000\n[working]\n',
  );
  const { texts, facts } = sampleContent(sample);
  const { shop, diagnostics } = readShop(texts, facts);
  return check(shop, diagnostics, { today: SAMPLE_TODAY }).filter(({ place }) => place.start.line === 3);
}

const words = (count: number) =>
  Array.from({ length: count }, (_, i) => (i % 6 === 5 ? 'on\n' : 'on '))
    .join('')
    .trim();

test.each(rateExamples)('$words words in $seconds s are $wpm a minute, and told above 180', (example) => {
  const found = told(example.seconds, words(example.words));
  expect(found.map(({ rule }) => rule)).toEqual(example.wpm > 180 ? ['caption-too-fast'] : []);
  for (const { message } of found) expect(message).toContain(`${example.wpm} words a minute`);
});

describe('the rule of reading speed', () => {
  const most = Math.max(...(source('Ofcom')?.wpmMax ?? []));

  test('is the upper end of Ofcom and the BBC', () => {
    expect(most).toBe(180);
    expect(Math.max(...(source('BBC')?.wpm ?? []))).toBe(most);
    // Of ten seconds: 30 words are 180 a minute, 31 are 186.
    expect(told(10, words(30))).toEqual([]);
    expect(told(10, words(31))).toMatchObject([{ rule: 'caption-too-fast', severity: 'warning' }]);
  });

  test('says more above the speed that Ofcom calls hard to follow', () => {
    const hard = source('Ofcom')?.hardAbove ?? 0;
    expect(told(30, words(hard / 2))[0]?.message).not.toContain('hard to follow');
    expect(told(30, words(hard / 2 + 1))[0]?.message).toContain('hard to follow');
  });

  // Known gaps: the DCMP figures for school pupils (120 to 130) and adult special interest (150 to 160) are lower. They
  // are for captions that are rewritten to be shorter; here the words are those of who speaks, and are heard as well.
  test('lets through what DCMP would shorten', () => {
    const slowest = Math.max(...(source('DCMP, adult special interest')?.wpmMax ?? []));
    expect(slowest).toBeLessThan(most);
    expect(told(30, words(slowest / 2 + 1))).toEqual([]);
  });
});

test('a caption that stands for less than the DCMP two seconds is told', () => {
  expect(told(minSeconds, 'Hold it.')).toEqual([]);
  expect(told(minSeconds - 0.001, 'Hold it.')).toMatchObject([{ rule: 'caption-too-short', severity: 'warning' }]);
});

// Known gap: 32 characters are the width of a television caption; on the web 42 are common practice (no source).
test('a line may be longer than the 32 characters of DCMP, up to 42', () => {
  expect(charactersPerLine.DCMP).toBe(32);
  expect(told(6, 'x'.repeat(42))).toEqual([]);
  expect(told(6, 'x'.repeat(43))).toMatchObject([{ rule: 'caption-line-long' }]);
});
