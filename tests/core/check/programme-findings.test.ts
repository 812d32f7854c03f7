import { expect, test } from 'vitest';
import {
  check,
  lesson,
  programmeFindings,
  replaceIn,
  SAMPLE_TODAY,
  type Sample,
  SOUND_SHOP,
  sampleContent,
} from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';

function openIn(sample: Sample): string[] {
  const { texts, facts } = sampleContent(sample);
  const { shop, diagnostics } = readShop(texts, facts);
  const [recording] = shop.recordings;
  if (!recording) throw new Error('no recording');
  const found = check(shop, diagnostics, { today: SAMPLE_TODAY });
  return programmeFindings(shop, recording, found).map(({ severity, place }) => `${severity} ${place.file}`);
}

const bare = (date: string) =>
  replaceIn(
    'classes/saturday.yaml',
    /^date: .*$/m.exec(SOUND_SHOP['classes/saturday.yaml'] ?? '')?.[0] ?? '',
    `date: ${date}`,
  );

test('what is wrong with a lesson of the recording is open, worst first; with a class it is not', () => {
  const body =
    '## Wheel\n<Cue at="0:00:20" />\n\n### Tighten\n<Cue at="0:00:30" />\nIt takes 98 N·m, or <Spec of="axel-nut" />.';
  expect(openIn(lesson(body))).toEqual(['error lessons/chain.mdx', 'warning lessons/chain.mdx']);
  expect(openIn({ files: {} })).toEqual([]);
  expect(openIn(bare('2027-02-30'))).toEqual([]);
});

test('a lesson that cannot be read counts: its warnings would be missing in the picture', () => {
  expect(openIn(lesson('## Wheel\n<Warning>Support the frame.'))).toContain('error lessons/chain.mdx');
});
