import { readdir, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type AstroIntegration, build } from 'astro';
import { rolldown } from 'rolldown';
import { KEPT_SCRIPT } from '../../core/keep/index.ts';
import { BUNDLED_HERE, SELF_CONTAINED, solverInPlace } from './build-anywhere.ts';
import { routesIn } from './routes-in.ts';
import { ScriptSizes } from './script-sizes.ts';
import type { ShippedPackages } from './shipped-packages.ts';
import { pagesConfig } from './site-config.ts';

/** What the pages are bundled for. */
export interface BundleWishes {
  /** Absolute path of Liftside itself. */
  readonly home: string;
  /** Path that the site is served under. */
  readonly base: string;
  /** Address of the published site. */
  readonly address?: string;
  /** Tags of languages besides the first, in which pages are made too. */
  readonly languages: readonly string[];
  /** The site goes to a web server, where its lessons can be kept on a device. */
  readonly keepable: boolean;
}

/** Absolute paths of folders that are not there yet. */
export interface BundleFolders {
  /** The program that makes the pages. */
  readonly program: string;
  /** What browsers load besides the pages. */
  readonly assets: string;
  /** Where Astro works meanwhile. */
  readonly scaffold: string;
}

const HERE = new URL('./', import.meta.url);

/**
 * Has Astro bundle all pages, without making one: the program that makes them, and the scripts,
 * sheets and fonts that they load, with the script that answers from what was kept on a device. Nothing of a shop goes
 * into it but its languages.
 *
 * @param shipped told which packages have code in what browsers load
 * @returns name of the program's entry, which exports what `page-maker.ts` does
 * @throws OutsideFailure when the scripts of a page weigh more than they may
 */
export async function bundlePages(
  { program, assets, scaffold }: BundleFolders,
  wishes: BundleWishes,
  shipped: ShippedPackages,
): Promise<string> {
  const { home, keepable } = wishes;
  const sizes = new ScriptSizes();
  await build({
    root: home,
    configFile: false,
    logLevel: 'error',
    ...pagesConfig(wishes),
    outDir: assets,
    build: {
      // In pages of a web server styles stand in the head: on a slow network a sheet of its own costs the first paint a
      // third of a second. In a package they are files, whose addresses can be made relative.
      inlineStylesheets: keepable ? 'always' : 'never',
      server: scaffold,
    },
    integrations: [bundling(wishes, program)],
    vite: {
      build: { assetsInlineLimit: 0 },
      plugins: [sizes.plugin(), shipped.plugin(), solverInPlace, entryHere],
      ...SELF_CONTAINED,
    },
  });
  // Here, not in a hook of the build: Astro would call it an unhandled error.
  sizes.hold();
  if (keepable) await writeFile(join(assets, KEPT_SCRIPT), await keptScript(home));
  const entry = (await readdir(program)).find((name) => name.startsWith('prerender-entry'));
  if (entry === undefined) throw new Error('Astro has written no entry of the program that makes the pages');
  return entry;
}

/** Astro makes no pages: the program is moved to where it is kept. */
function bundling({ languages, keepable }: BundleWishes, program: string): AstroIntegration {
  let written = '';
  return {
    name: 'liftside-bundle',
    hooks: {
      'astro:config:setup': ({ updateConfig, injectRoute }) => {
        for (const route of routesIn(languages.map((tag) => ({ tag })))) injectRoute(route);
        updateConfig({
          vite: {
            define: { 'import.meta.env.BUILT': 'true', 'import.meta.env.KEEPABLE': JSON.stringify(keepable) },
          },
        });
      },
      'astro:config:done': ({ config, setAdapter }) => {
        written = fileURLToPath(new URL('.prerender', config.build.server));
        setAdapter(BUNDLED_HERE);
      },
      'astro:build:start': ({ setPrerenderer }) =>
        setPrerenderer({
          name: 'liftside-bundle',
          setup: () => rename(written, program),
          getStaticPaths: async () => [],
          render: () => Promise.reject(new Error('no page is made while pages are bundled')),
        }),
    },
  };
}

/** The program begins with the maker of pages. */
const entryHere = {
  name: 'liftside-page-maker',
  configEnvironment: (name: string) =>
    name === 'prerender'
      ? { build: { rolldownOptions: { input: fileURLToPath(new URL('page-maker.ts', HERE)) } } }
      : undefined,
};

async function keptScript(home: string): Promise<string> {
  const bundle = await rolldown({ input: join(home, 'src/browser/keep/kept-script.ts'), logLevel: 'silent' });
  try {
    const { output } = await bundle.generate({ format: 'iife', minify: true, codeSplitting: false });
    return output[0].code;
  } finally {
    await bundle.close();
  }
}
