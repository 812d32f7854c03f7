import type { AstroIntegration } from 'astro';
import type { LoadedShop } from '../files/index.ts';
import type { Served } from './serve-site.ts';
import { type SiteOptions, siteConfig } from './site-config.ts';
import { siteSourceOf } from './site-source.ts';

/**
 * The local site, made afresh with each change of the content. On this machine only.
 *
 * @param port 0 takes Astro's own or the next free one
 * @param integrations what the local site has beyond the published one
 */
export async function devSite(
  options: SiteOptions & {
    readonly home: string;
    readonly port?: number;
    readonly integrations?: readonly AstroIntegration[];
    /** Reads the content folder. */
    readonly load?: () => Promise<LoadedShop>;
  },
): Promise<Served> {
  // Left at 'production' by a shell or a build before, Vite would answer as if there were no local site.
  process.env.NODE_ENV = 'development';
  // Not before a local site is wanted: it takes long to load.
  const { dev } = await import('astro');
  const config = siteConfig(
    options,
    siteSourceOf(options.content, () => new Date(), 'uncut', options.load),
  );
  const server = await dev({
    root: options.home,
    configFile: false,
    ...config,
    integrations: [...(config.integrations ?? []), ...(options.integrations ?? [])],
    server: { host: '127.0.0.1', ...(options.port ? { port: options.port } : {}) },
  });
  return {
    address: `http://127.0.0.1:${server.address.port}${config.base ?? '/'}`,
    close: () => server.stop(),
  };
}
