import { build } from 'astro';
import { stepRecords } from '../../core/search/index.ts';
import { ContentErrors, errorReport } from './content-errors.ts';
import { type SiteOptions, siteConfig } from './site-config.ts';
import { siteSourceOf } from './site-source.ts';

export interface BuildOptions extends SiteOptions {
  /** Absolute path to build into. */
  readonly out: string;
  /** Absolute path of Liftside itself. */
  readonly home: string;
  readonly now: () => Date;
}

export interface Built {
  /** Steps that search finds. */
  readonly steps: number;
  readonly lessons: number;
  readonly classes: number;
}

/**
 * Builds the static site.
 *
 * @throws ContentErrors when the content has errors; nothing is written then
 */
export async function buildSite(options: BuildOptions): Promise<Built> {
  const source = siteSourceOf(options.content, options.now);
  const site = await source.open();
  const told = errorReport(site);
  if (told) throw new ContentErrors(told);
  const { shop } = site;
  const address = options.address ?? shop.info.site;
  await build({
    root: options.home,
    configFile: false,
    logLevel: 'error',
    ...siteConfig({ ...options, ...(address === undefined ? {} : { address }) }, source),
  });
  return { steps: stepRecords(shop).length, lessons: shop.lessons.length, classes: shop.classes.length };
}
