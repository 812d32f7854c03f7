import { manifest } from 'virtual:astro:manifest';
import { App } from 'astro/app';
import { StaticPaths } from 'astro/runtime/prerender/static-paths.js';
import { allowStylesOfHead } from './page-policy.ts';

/** Path below the base, without a slash before it, and the file of the site that it is written to. */
export interface PageAt {
  readonly path: string;
  readonly file: string;
}

/** Makes the pages of whatever site is provided. */
export interface PageMaker {
  /** All that the site consists of, each once. */
  paths(): Promise<readonly PageAt[]>;
  /** One of them; nothing where the site has none there. @throws what making it threw */
  make(page: PageAt): Promise<string | Uint8Array | undefined>;
}

/** Throws what went wrong in a page, where a server would show a page that says so. */
class Maker extends App {
  override createErrorHandler(): ReturnType<App['createErrorHandler']> {
    return {
      renderError: (request, { error, response }) => {
        if (error instanceof Error) throw error;
        if (response) return Promise.resolve(response);
        throw new Error(`the page at ${request.url} could not be made`);
      },
    };
  }
}

/**
 * A maker that knows nothing of sites made before. This file is the entry of the program that Astro bundles of all
 * pages: what stands here runs in the bundle.
 */
export function pageMaker(): PageMaker {
  // Astro keeps what it knows of the paths of a site by this object.
  const app = new Maker({ ...manifest }, false);
  const origin = manifest.site === undefined ? 'http://localhost' : new URL(manifest.site).origin;
  const routes = new Map<string, Awaited<ReturnType<StaticPaths['getAll']>>[number]['route']>();
  return {
    async paths() {
      const pages = new Map<string, PageAt>();
      for (const { pathname, route } of await new StaticPaths(app).getAll()) {
        const name = pathname.replace(/^\//, '').replace(/\/$/, '');
        const page = pageAt(name, route.type === 'endpoint');
        if (pages.has(page.path)) continue;
        pages.set(page.path, page);
        routes.set(page.path, route);
      }
      return [...pages.values()];
    },
    async make({ path }) {
      const routeData = routes.get(path);
      const url = new URL(encodeURI(`${manifest.base.replace(/\/?$/, '/')}${path}`), origin);
      const response = await app.render(new Request(url), routeData ? { routeData } : {});
      if (!response.body) return undefined;
      const isHtml = response.headers.get('content-type')?.startsWith('text/html');
      return isHtml ? allowStylesOfHead(await response.text()) : new Uint8Array(await response.arrayBuffer());
    },
  };
}

/** Pages end with a slash and are a file in a folder of their own; the one that servers show where nothing is, is not. */
function pageAt(name: string, isFile: boolean): PageAt {
  if (isFile) return { path: name, file: name };
  if (name === '404') return { path: '404/', file: '404.html' };
  const path = name === '' ? '' : `${name}/`;
  return { path, file: `${path}index.html` };
}
