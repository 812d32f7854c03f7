import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { isAbsolute, join, resolve } from 'node:path';
import type { AstroUserConfig } from 'astro';
import { liftside } from './integration.ts';
import type { SiteSource } from './open-site.ts';
import { ScriptSizes } from './script-sizes.ts';
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

/** Folder of a site being built that holds the program which writes its pages; it goes when they are written. */
export const SCAFFOLD = '.scaffold';

/**
 * Astro's configuration for a content folder.
 *
 * @param source where the pages get their shop; made for the folder when left out
 * @param sizes told what the scripts of a build weigh
 * @param last absolute path of the site of the last build, whose footage may be taken over
 */
export function siteConfig(
  { content, base = '/', out, address, footage, part, draft, shipped }: SiteOptions,
  source: SiteSource = siteSourceOf(content, () => new Date()),
  sizes = new ScriptSizes(),
  last?: string,
): AstroUserConfig {
  const keepable = !part && !draft;
  if (!isAbsolute(content)) throw new RangeError(`the content folder wants an absolute path, not ${content}`);
  return {
    ...(out === undefined ? {} : { outDir: out }),
    ...(address === undefined ? {} : { site: address }),
    base,
    trailingSlash: 'always',
    output: 'static',
    devToolbar: { enabled: false },
    integrations: [
      liftside(source, {
        sizes,
        footage: footage !== 'none' && !part,
        editorHelp: keepable,
        draft: draft === true,
        keepable,
        ...(shipped && { shipped }),
        ...(last !== undefined && { last }),
      }),
    ],
    // In pages of a web server styles stand in the head: on a slow network a sheet of its own costs the first paint a
    // third of a second. In a package they are files, whose addresses can be made relative.
    build: {
      inlineStylesheets: keepable ? 'always' : 'never',
      ...(out === undefined ? {} : { server: join(out, SCAFFOLD) }),
    },
    vite: {
      build: { assetsInlineLimit: 0 },
      server: { fs: { allow: [HOME, ...PACKAGES.filter(existsSync), content] } },
    },
  };
}
