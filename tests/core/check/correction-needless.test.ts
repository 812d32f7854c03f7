import { expect, test } from 'vitest';
import { check, SAMPLE_TODAY, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { changedFile } from '../../support/shop.ts';

/** What is told of corrections when the small shop's table, recording and corrections say this; values invented. */
function told(nominal: number, spoken: string, correction: string): string[] {
  const { texts, facts } = sampleContent({
    files: {
      ...changedFile('specs/tarn-420.yaml', 'nominal: 98', `nominal: ${nominal}`),
      ...changedFile(
        'media/chain.vtt',
        '00:06:00.000 --> 00:09:00.000\n[working]',
        `00:06:12.000 --> 00:09:00.000\n${spoken}`,
      ),
      'corrections/chain.yaml': `corrections:\n  - {step: tighten-the-nut, at: "0:06:12", spec: axle-nut, ${correction}on: 2026-11-20}\n`,
    },
  });
  const { shop, diagnostics } = readShop(texts, facts);
  return check(shop, diagnostics, { today: SAMPLE_TODAY })
    .map(({ rule }) => rule)
    .filter((rule) => rule.includes('correction') || rule.includes('value'));
}

test.each([
  ['the table says another value than the recording', 110, '98 newton metres', 'said: 98 newton metres, ', []],
  ['the table is back at what was said', 98, '98 newton metres', 'said: 98 newton metres, ', ['correction-needless']],
  ['in another unit it is the same', 98, '72 foot-pounds', 'said: 72 foot-pounds, ', ['correction-needless']],
  ['it was shown', 98, 'nothing', 'shown: 95 N·m, ', ['correction-needless']],
  // The same correction still covers what is said a moment later.
  ['other words of the step are still wrong', 98, '98, no, 80 newton metres', 'said: 98 newton metres, ', []],
  // Nothing is known of what it corrects, so it stays.
  ['it names no words', 98, 'nothing', '', []],
  ['its words hold no value', 98, 'nothing', 'said: the wrong way round, ', []],
  ['one of its two values is wrong', 98, 'nothing', 'said: "98, or 80 newton metres", ', []],
] as const)('%s', (_situation, nominal, spoken, correction, rules) => {
  expect(told(nominal, spoken, correction)).toEqual(rules);
});
