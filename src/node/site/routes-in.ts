import type { SiteLocale } from './locales.ts';

/** The pages that are made in every language, as files below `src/pages`; what is not named here is made once. */
const PAGES: readonly string[] = [
  'index.astro',
  'lessons/[id].astro',
  'lessons/of/[part].astro',
  'lessons/[id]/captions.vtt.ts',
  'lessons/[id]/file-[part].vtt.ts',
  'steps/index.astro',
  'steps/[part].astro',
  'steps/rows/[block].astro',
  'search.json.ts',
  'search/[part].json.ts',
  'specs/[machine].astro',
  'corrections/index.astro',
  'measure/index.astro',
  'record/index.astro',
  'kept/index.astro',
  'classes/[id]/index.astro',
  'classes/[id]/handout.astro',
  'classes/[id]/job-breakdown.astro',
  'classes/[id]/[paper].astro',
];

/** The same pages once more for each further language, below its tag: `/es/lessons/[id]`. */
export function routesIn(locales: readonly Pick<SiteLocale, 'tag'>[]): { pattern: string; entrypoint: URL }[] {
  return locales.flatMap(({ tag }) =>
    PAGES.map((file) => ({
      pattern: `/${tag}/${file.replace(/(\/?index)?\.astro$|\.ts$/, '')}`,
      entrypoint: new URL(`../../pages/${file}`, import.meta.url),
    })),
  );
}
