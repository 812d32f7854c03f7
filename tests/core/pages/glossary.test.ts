import { expect, test } from 'vitest';
import { glossary } from '../../../src/core/pages/index.ts';
import { smallShop } from '../../support/shop.ts';

const LESSON = `---
title: Chain
recording: chain
machine: tarn-420
---
## Rear wheel
### Crack the nut
Close the Rivet links. The slackness does not count.
<Warning>Mind the (old) axle.</Warning>
`;
const WORDS = `words:
  - {say: rivet link, also: [master link], meaning: The link that closes a chain.}
  - {say: axle, also: [spindle], meaning: What a wheel turns on.}
  - {say: slack, also: [sag], meaning: How far a chain moves.}
  - {say: wheel, also: [rim]}
`;

test('words that stand in a lesson are explained, whole words only, where the shop says what they mean', () => {
  const { shop, lesson } = smallShop({ 'lessons/chain.mdx': LESSON, 'words.yaml': WORDS });
  expect(glossary(shop, lesson)).toEqual([
    { say: 'axle', also: ['spindle'], meaning: 'What a wheel turns on.' },
    { say: 'rivet link', also: ['master link'], meaning: 'The link that closes a chain.' },
  ]);
});
