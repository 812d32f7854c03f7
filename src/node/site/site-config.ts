import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { isAbsolute, join, resolve } from 'node:path';
import type { AstroUserConfig } from 'astro';
import { localSite } from './local-site.ts';
import type { SiteSource } from './open-site.ts';
import type { ShippedPackages } from './shipped-packages.ts';
import { siteSourceOf } from './site-source.ts';

export interface SiteOptions {
  /** Absolute path of the content folder. */
  readonly content: string;
  /** Path that the site is served under; `/` when left out. */
  readonly base?: string;
  /**
   * `rendered` publishes finished programmes only; `uncut` also the camera files of recordings that are not rendered,
   * with all that the edit list cuts out; `camera files` those of every recording, rendered or not; `none` no film at
   * all, where only pages are wanted.
   */
  readonly footage?: 'rendered' | 'uncut' | 'camera files' | 'none';
  /** Absolute path to build into; `dist` of Liftside when left out. */
  readonly out?: string;
  /** Address of the published site. */
  readonly address?: string;
  /**
   * Only a part of the content is built, to be put elsewhere: films are not placed, and the help for editors, which
   * knows all ids, stays as it is.
   */
  readonly part?: true;
  /** Errors of the content do not stop the build: the pages wanted say themselves what is open. */
  readonly draft?: true;
  /** Told which packages have code in the scripts of a build. */
  readonly shipped?: ShippedPackages;
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
