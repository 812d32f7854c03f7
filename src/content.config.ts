import { defineCollection } from 'astro:content';
import { join } from 'node:path';
import { glob } from 'astro/loaders';
import { siteSource } from './node/site/open-site.ts';

/**
 * The lessons, for their rendered text only. Every value on a page comes from the shop as our own reader gives it,
 * since Astro reads YAML by other rules.
 */
const lessons = defineCollection({
  loader: glob({ pattern: '*.mdx', base: join(siteSource().content, 'lessons') }),
});

export const collections = { lessons };
