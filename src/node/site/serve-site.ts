import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import compression from 'compression';
import send from 'send';
import { closeServer, readTarget } from '../http/index.ts';
import { SITE_HEADERS } from './page-policy.ts';

export interface Served {
  /** Such as `http://127.0.0.1:4321/`. */
  readonly address: string;
  close(): Promise<void>;
}

/**
 * Serves a built site on this machine, footage by range.
 *
 * @param dir absolute path of the built site
 * @param base path it was built for
 * @param port 0 takes a free one
 */
export async function serveSite({
  dir,
  base = '/',
  port = 0,
}: {
  readonly dir: string;
  readonly base?: string;
  readonly port?: number;
}): Promise<Served> {
  // As any host of a site does: what a browser waits for here is what it waits for there.
  const compress = compression();
  const server = createServer((request, response) =>
    compress(request, response, () => answer(request, response, dir, base)),
  );
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', resolve);
  });
  return { address: `http://127.0.0.1:${portOf(server)}${base}`, close: () => closeServer(server) };
}

function answer(request: IncomingMessage, response: ServerResponse, dir: string, base: string): void {
  response.setHeaders(SITE_HEADERS);
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.writeHead(405, { allow: 'GET, HEAD' }).end();
    return;
  }
  const target = readTarget(request.url);
  if (!target) {
    response.writeHead(400, { 'content-type': 'text/plain; charset=utf-8' }).end('the address is not understood\n');
    return;
  }
  const { pathname } = target.url;
  if (!pathname.startsWith(base)) {
    response.writeHead(302, { location: base }).end();
    return;
  }
  // Nothing is kept by the browser: what is served here changes with every build.
  const options = { root: dir, dotfiles: 'deny', cacheControl: false } as const;
  response.setHeader('cache-control', 'no-cache');
  send(request, `/${pathname.slice(base.length)}`, options)
    .on('error', (error: { readonly status?: number }) => {
      if (error.status === 416) {
        response.writeHead(416).end();
        return;
      }
      response.statusCode = 404;
      delete request.headers.range;
      send(request, '/404.html', { ...options, lastModified: false, etag: false })
        .on('error', () => response.end('not found'))
        .pipe(response);
    })
    .pipe(response);
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === 'object' && address ? address.port : 0;
}
