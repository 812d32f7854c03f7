import { defineCollection } from 'astro:content';
import { join } from 'node:path';
import { glob } from 'astro/loaders';
import { siteSource } from './node/site/open-site.ts';

/**
 * The lessons, for their rendered text only. Every value on a page comes from the shop as our own reader gives it,
 * since Astro reads YAML by other rules.
 */
const folder = join(siteSource().content, 'lessons');
const files = glob({ pattern: '*.mdx', base: folder });
const lessons = defineCollection({
  loader: {
    ...files,
    async load(context) {
      // What Astro keeps from one build to the next says where each lesson lay: of another content folder, with the
      // same text in it, the old place would be read, and the build fail once that is gone.
      if (context.meta.get('folder') !== folder) context.store.clear();
      context.meta.set('folder', folder);
      await files.load(context);
    },
  },
});

export const collections = { lessons };
