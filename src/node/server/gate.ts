import { realpath } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { createRequire } from 'node:module';
import { join, sep } from 'node:path';
import type { Duplex } from 'node:stream';
import { readTarget, safely, type Target } from '../http/index.ts';
import { localPolicy } from '../site/page-policy.ts';
import { ownHosts, type Refusal } from './guard.ts';

/** What the gate of the local site knows. */
export interface Gate {
  /** Absolute path of Liftside. */
  readonly home: string;
  /** Path the site is served under, with a slash at both ends. */
  readonly base: string;
}

/** Requests whose address was not understood. */
const odd = new WeakSet<IncomingMessage>();

/**
 * Stands before everything the local site answers, its builder's own file routes included.
 *
 * The builder serves any file below its root to whoever asks, follows links, and starts an editor when told to. Of all
 * that the pages need their scripts and styles, which lie in `src` and in the packages: nothing else is given out as a
 * file, what lies there by a link out of there is not, and no other site may ask for anything but a page to be shown.
 */
export function gate(about: Gate) {
  return safely(async (request: IncomingMessage, response: ServerResponse, next) => {
    const refusal = await refusalOf(request, about);
    if (!refusal) {
      // Answers of the cutting room say their own, narrower one instead.
      response.setHeader('content-security-policy', localPolicy(request.headers.host ?? ''));
      response.setHeader('x-content-type-options', 'nosniff');
      return next();
    }
    response.writeHead(refusal.status, {
      'content-type': 'text/plain; charset=utf-8',
      'x-content-type-options': 'nosniff',
      ...(refusal.status === 405 ? { allow: 'GET, HEAD, POST' } : {}),
    });
    response.end(`${refusal.problem}\n`);
  });
}

/** Web sockets that the builder answers: it tells its pages by them what changed. All others it leaves hanging. */
const BUILDERS_OWN = ['vite-hmr', 'vite-ping'];

/**
 * Takes the address from requests that are not understood before anybody else reads it: the builder's server ends
 * when it cannot. The gate answers them. Web sockets do not come through it and are answered here.
 */
export function readAddressesFirst(server: HttpServer): void {
  server.prependListener('request', (request) => {
    if (readTarget(request.url)) return;
    odd.add(request);
    request.url = '/';
  });
  server.prependListener('upgrade', (request, socket) => {
    socket.on('error', () => socket.destroy());
    const own = ownHosts(request.socket.localPort ?? 0).includes((request.headers.host ?? '').toLowerCase());
    const asked = String(request.headers['sec-websocket-protocol'] ?? '');
    if (own && readTarget(request.url) && BUILDERS_OWN.includes(asked)) return;
    // Others hear of it too, and cannot be kept from it: what is left for them to read asks for nothing.
    request.url = '/';
    request.headers = {};
    socket.end('HTTP/1.1 400 Bad Request\r\nConnection: close\r\n\r\n');
  });
}

interface HttpServer {
  prependListener(event: 'request', listener: (request: IncomingMessage) => void): unknown;
  prependListener(event: 'upgrade', listener: (request: IncomingMessage, socket: Duplex) => void): unknown;
}

async function refusalOf(request: IncomingMessage, about: Gate): Promise<Refusal | undefined> {
  const target = odd.has(request) ? undefined : readTarget(request.url);
  if (!target) return { status: 400, problem: 'the address is not understood' };
  if (!['GET', 'HEAD', 'POST'].includes(request.method ?? ''))
    return { status: 405, problem: 'this site is read, and written to by its own pages only' };
  const { host = '', 'sec-fetch-site': site, 'sec-fetch-mode': mode, 'sec-fetch-dest': destination } = request.headers;
  if (!ownHosts(request.socket.localPort ?? 0).includes(host.toLowerCase()))
    return { status: 403, problem: `this address answers to 127.0.0.1 only, not to ${host || 'no name'}` };
  const path = below(about.base, target.path);
  const shown = request.method === 'GET' && mode === 'navigate' && destination === 'document';
  if (site !== undefined && site !== 'same-origin' && site !== 'none' && !(shown && isPage(path)))
    return { status: 403, problem: 'the request comes from another site' };
  return (await mayServe(path, target, about))
    ? undefined
    : { status: 404, problem: 'there is nothing at this address' };
}

/** The path without the base; as it is where it does not begin so. */
function below(base: string, path: string): string {
  return path.startsWith(base) ? `/${path.slice(base.length)}` : path;
}

/** Addresses that end in a folder or a page, as a person opens them. */
function isPage(path: string): boolean {
  return !/^\/(@|__|src\/|node_modules\/)/.test(path) && /(\/|\.html|\/[^./]+)$/.test(path);
}

/** Folders at the top of Liftside, which the builder would give out as they stand. Everything else is a page's address. */
const OWN_CODE = /^\/(src|node_modules)\//;

async function mayServe(path: string, { url }: Target, { home }: Gate): Promise<boolean> {
  if (path.startsWith('/__')) return false;
  const file = path.startsWith('/@fs/')
    ? path.slice('/@fs'.length)
    : OWN_CODE.test(path)
      ? join(home, path)
      : undefined;
  if (file !== undefined) return isCode(file, home);
  if (path.startsWith('/@id/')) return !/^\/@id\/(\/|file:)/.test(path) || isCode(path.slice('/@id/'.length), home);
  if (path.startsWith('/@')) return true;
  if (/^\/(cutting-room|footage)\//.test(path)) return true;
  // A hidden file, or a file at the top or in a folder of Liftside by its own path.
  if (path.split('/').some((part) => part.startsWith('.')) || /%[0-9a-f]{2}/i.test(path)) return false;
  if (url.searchParams.has('raw') || url.searchParams.has('import') || url.searchParams.has('url')) return false;
  const lies = await realpath(join(home, path)).catch(() => undefined);
  return lies === undefined || lies === home || path.endsWith('/');
}

/** True for a file that, links followed, lies in the sources or in an installed package. */
async function isCode(file: string, home: string): Promise<boolean> {
  const packages = createRequire(join(home, 'package.json')).resolve.paths('astro') ?? [];
  const roots = await Promise.all(
    [join(home, 'src'), ...packages].map((root) => realpath(root).catch(() => undefined)),
  );
  const lies = await realpath(file).catch(() => undefined);
  // What is not there gives nothing away, and some modules only seem to be files.
  if (lies === undefined) return roots.some((root) => root !== undefined && file.startsWith(root + sep));
  return roots.some((root) => root !== undefined && lies.startsWith(root + sep));
}
