import { existsSync } from 'node:fs';
import { relative, sep } from 'node:path';
import type { AstroIntegration } from 'astro';
import { ChangeSeen } from './change-seen.ts';
import { errorReport } from './content-errors.ts';
import { idTypes, writeEditorHelp } from './editor-help.ts';
import { footageHandler } from './footage.ts';
import { FOOTAGE } from './footage-paths.ts';
import { provideSite, type SiteSource } from './open-site.ts';
import { routesIn } from './routes-in.ts';

/** What ties the shop's content to the local site: reading, findings, footage, help for editors. */
export function localSite(source: SiteSource): AstroIntegration {
  let base = '/';
  provideSite(source);
  return {
    name: 'liftside',
    hooks: {
      'astro:config:setup': async ({ updateConfig, addMiddleware, injectRoute, command }) => {
        if (command === 'dev')
          addMiddleware({ entrypoint: new URL('./findings-on-page.ts', import.meta.url), order: 'pre' });
        // Where there is no content folder, that is said below.
        if (existsSync(source.content))
          for (const route of routesIn((await source.open()).locales.slice(1))) injectRoute(route);
        updateConfig({
          vite: { define: { 'import.meta.env.BUILT': 'false', 'import.meta.env.KEEPABLE': 'false' } },
        });
      },
      'astro:config:done': async ({ config, injectTypes }) => {
        base = config.base.endsWith('/') ? config.base : `${config.base}/`;
        if (!existsSync(source.content)) throw new Error(`there is no content folder at ${source.content}`);
        const { shop } = await source.open();
        injectTypes({ filename: 'ids.d.ts', content: idTypes(shop) });
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
    },
  };
}
