import { expect, test } from 'vitest';
import { SOUND, sampleContent } from '../../../src/core/check/index.ts';
import { readShop } from '../../../src/core/read/index.ts';
import { searchIndex } from '../../../src/node/site/search-index.ts';

test('the index holds one record a step', async () => {
  const { texts, facts } = sampleContent(SOUND);
  const files = await searchIndex(readShop(texts, facts).shop, '/garage/');
  expect(files.filter(({ path }) => path.endsWith('.pf_fragment'))).toHaveLength(2);
  expect(files.map(({ path }) => path)).toContain('pagefind.js');
});
