import { isAbsolute, resolve } from 'node:path';
import type { AstroUserConfig } from 'astro';
import { liftside } from './integration.ts';
import type { SiteSource } from './open-site.ts';
import { ScriptSizes } from './script-sizes.ts';
import { siteSourceOf } from './site-source.ts';

export interface SiteOptions {
  /** Absolute path of the content folder. */
  readonly content: string;
  /** Path that the site is served under; `/` when left out. */
  readonly base?: string;
  /** Absolute path to build into; `dist` of Liftside when left out. */
  readonly out?: string;
  /** Address of the published site. */
  readonly address?: string;
}

/**
 * Astro's configuration for a content folder.
 *
 * @param source where the pages get their shop; made for the folder when left out
 * @param sizes told what the scripts of a build weigh
 */
export function siteConfig(
  { content, base = '/', out, address }: SiteOptions,
  source: SiteSource = siteSourceOf(content, () => new Date()),
  sizes = new ScriptSizes(),
): AstroUserConfig {
  if (!isAbsolute(content)) throw new RangeError(`the content folder wants an absolute path, not ${content}`);
  return {
    ...(out === undefined ? {} : { outDir: out }),
    ...(address === undefined ? {} : { site: address }),
    base,
    trailingSlash: 'always',
    output: 'static',
    devToolbar: { enabled: false },
    integrations: [liftside(source, sizes)],
    vite: { server: { fs: { allow: [resolve(import.meta.dirname, '../../..'), content] } } },
  };
}
