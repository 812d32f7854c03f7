import { SOUND, sampleContent } from '../../src/core/check/index.ts';
import { readShop } from '../../src/core/read/index.ts';
import type { Site } from '../../src/node/site/open-site.ts';

export type { Site };

/** The sound sample shop as pages see it, its footage in a folder of the test's own. */
export function siteForPages(content: string): Site {
  const { texts, facts } = sampleContent(SOUND);
  return {
    content,
    ...readShop(texts, facts),
    texts,
    sums: new Map(),
    locales: [{ tag: 'en', messages: {}, forScripts: {}, forDay: {} }],
    rendered: new Map(),
    unrendered: 'uncut',
    stills: new Map(),
    openings: new Map(),
    now: new Date('2026-11-25'),
  };
}
