import { build } from 'astro';
import { stepRecords } from '../../core/search/index.ts';
import { ContentErrors, errorReport } from './content-errors.ts';
import { ScriptSizes } from './script-sizes.ts';
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
 * @throws OutsideFailure when the scripts of a page weigh more than they may
 */
export async function buildSite(options: BuildOptions): Promise<Built> {
  const source = siteSourceOf(options.content, options.now);
  const site = await source.open();
  const told = errorReport(site);
  if (told) throw new ContentErrors(told);
  const { shop } = site;
  const address = options.address ?? shop.info.site;
  const sizes = new ScriptSizes();
  await build({
    root: options.home,
    configFile: false,
    logLevel: 'error',
    ...siteConfig({ ...options, ...(address === undefined ? {} : { address }) }, source, sizes),
  });
  // Here, not in a hook of the build: Astro would call it an unhandled error.
  sizes.hold();
  return { steps: stepRecords(shop).length, lessons: shop.lessons.length, classes: shop.classes.length };
}
