import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { isAbsolute, join, resolve } from 'node:path';
import type { AstroUserConfig } from 'astro';
import { localSite } from './local-site.ts';
import type { SiteSource } from './open-site.ts';
import { siteSourceOf } from './site-source.ts';

export interface SiteOptions {
  /** Absolute path of the content folder. */
  readonly content: string;
  /** Path that the site is served under; `/` when left out. */
  readonly base?: string;
  /** Address of the published site. */
  readonly address?: string;
}

const HOME = resolve(import.meta.dirname, '../../..');
/** Where packages are looked for: beside Liftside too, where it is a package itself. */
const PACKAGES = createRequire(join(HOME, 'package.json')).resolve.paths('astro') ?? [];

/** What Astro is told of the pages, whether they are shown by the local site or bundled for a build. */
export function pagesConfig({ base = '/', address }: Pick<SiteOptions, 'base' | 'address'>): AstroUserConfig {
  return {
    ...(address === undefined ? {} : { site: address }),
    base,
    trailingSlash: 'always',
    output: 'static',
    devToolbar: { enabled: false },
  };
}

/**
 * Astro's configuration of the local site of a content folder.
 *
 * @param source where the pages get their shop; made for the folder when left out
 */
export function siteConfig(
  options: SiteOptions,
  source: SiteSource = siteSourceOf(options.content, () => new Date()),
): AstroUserConfig {
  const { content } = options;
  if (!isAbsolute(content)) throw new RangeError(`the content folder wants an absolute path, not ${content}`);
  return {
    ...pagesConfig(options),
    integrations: [localSite(source)],
    vite: { server: { fs: { allow: [HOME, ...PACKAGES.filter(existsSync), content] } } },
  };
}
