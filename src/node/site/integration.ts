import { existsSync } from 'node:fs';
import { relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { AstroIntegration } from 'astro';
import { SCAFFOLD_IN_OUT, SELF_CONTAINED, solverInPlace } from './build-anywhere.ts';
import { ChangeSeen } from './change-seen.ts';
import { ContentErrors, errorReport } from './content-errors.ts';
import { idTypes, writeEditorHelp } from './editor-help.ts';
import { footageHandler } from './footage.ts';
import { FOOTAGE } from './footage-paths.ts';
import { provideSite, type SiteSource } from './open-site.ts';
import { placeFootage } from './place-footage.ts';
import { routesIn } from './routes-in.ts';
import type { ScriptSizes } from './script-sizes.ts';
import type { ShippedPackages } from './shipped-packages.ts';

export interface BuildParts {
  /** Weighs the scripts. */
  readonly sizes: ScriptSizes;
  readonly footage: boolean;
  readonly editorHelp: boolean;
  /** Errors of the content do not stop the build. */
  readonly draft: boolean;
  readonly shipped?: ShippedPackages;
  /** The site goes to a web server, where its lessons can be kept on a device. */
  readonly keepable: boolean;
  /** Absolute path of the site of the last build. */
  readonly last?: string;
}

/** What ties the shop's content to Astro: reading, checking, footage, help for editors. */
export function liftside(
  source: SiteSource,
  { sizes, footage, editorHelp, draft, keepable, shipped, last }: BuildParts,
): AstroIntegration {
  let base = '/';
  let building = false;
  provideSite(source);
  return {
    name: 'liftside',
    hooks: {
      'astro:config:setup': async ({ updateConfig, addMiddleware, injectRoute, command }) => {
        if (command === 'dev')
          addMiddleware({ entrypoint: new URL('./findings-on-page.ts', import.meta.url), order: 'pre' });
        building = command === 'build';
        if (source.pages) addMiddleware({ entrypoint: new URL('./keep-pages.ts', import.meta.url), order: 'pre' });
        if (building) addMiddleware({ entrypoint: new URL('./styles-in-policy.ts', import.meta.url), order: 'post' });
        // Where there is no content folder, that is said below. A draft is printed in the first language of the shop.
        if (!draft && existsSync(source.content))
          for (const route of routesIn((await source.open()).locales.slice(1))) injectRoute(route);
        updateConfig({
          vite: {
            ...(building ? { ...SELF_CONTAINED, plugins: [sizes.plugin(), shipped?.plugin(), solverInPlace] } : {}),
            define: {
              'import.meta.env.BUILT': JSON.stringify(building),
              'import.meta.env.KEEPABLE': JSON.stringify(building && keepable),
            },
          },
        });
      },
      'astro:config:done': async ({ config, injectTypes, setAdapter }) => {
        base = config.base.endsWith('/') ? config.base : `${config.base}/`;
        if (building) setAdapter(SCAFFOLD_IN_OUT);
        if (!existsSync(source.content)) throw new Error(`there is no content folder at ${source.content}`);
        const { shop } = await source.open();
        injectTypes({ filename: 'ids.d.ts', content: idTypes(shop) });
        if (editorHelp)
          await writeEditorHelp(source.content, shop).catch(() => {
            // A content folder that cannot be written to still makes a site.
          });
      },
      'astro:server:setup': ({ server, logger }) => {
        server.middlewares.use(
          `${base}${FOOTAGE}`,
          footageHandler(() => source.open()),
        );
        server.watcher.add(source.content);
        const renew = async () => {
          const told = errorReport(await source.open());
          if (told) logger.warn(told);
          server.ws.send({ type: 'full-reload' });
        };
        const change = new ChangeSeen(() => renew().catch((error: unknown) => logger.error(String(error))));
        server.watcher.on('all', (_event, path) => {
          const inContent = relative(source.content, path);
          if (inContent.startsWith('..') || inContent.split(sep).includes('.liftside')) return;
          source.forget();
          change.seen();
        });
        server.httpServer?.once('close', () => change.end());
      },
      'astro:build:start': async () => {
        const told = draft ? undefined : errorReport(await source.open());
        if (told) throw new ContentErrors(told);
      },
      'astro:build:done': async ({ dir }) => {
        const out = fileURLToPath(dir);
        if (footage) await placeFootage(await source.open(), out, last);
      },
    },
  };
}
