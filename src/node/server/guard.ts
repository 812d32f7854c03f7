import { timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

/** Why a request is turned away. */
export interface Refusal {
  readonly status: 400 | 401 | 403 | 404 | 405 | 413 | 415;
  readonly problem: string;
}

/** What a guard looks at. */
export interface RequestFacts {
  readonly method: string;
  readonly headers: IncomingHttpHeaders;
  /** Port the request came in on. */
  readonly port: number;
  /** Token from the header or the address. */
  readonly token: string | undefined;
}

/** Names under which this machine reaches itself. Any other name in `Host` was pointed here by somebody. */
export function ownHosts(port: number): string[] {
  return ['127.0.0.1', 'localhost', '[::1]'].map((name) => `${name}:${port}`);
}

/**
 * Lets a request in that comes from our own page on this machine.
 *
 * A page elsewhere can send requests here, and its name can be made to point at 127.0.0.1. So the name in `Host` must
 * be this machine's, whoever says an `Origin` must say ours, the browser's own word (`Sec-Fetch-Site`, W3C Fetch
 * Metadata) must not speak against it, and the token of this start, which only our page was given, must be there.
 *
 * @param secret the token of this start; nothing for what needs none
 */
export function refusalFor(
  { method, headers, port, token }: RequestFacts,
  secret: string | undefined,
): Refusal | undefined {
  const host = headers.host ?? '';
  if (!ownHosts(port).includes(host.toLowerCase()))
    return { status: 403, problem: `this address answers to 127.0.0.1 only, not to ${host || 'no name'}` };
  const { origin } = headers;
  if (origin !== undefined && origin !== `http://${host}`)
    return { status: 403, problem: 'the request comes from another site' };
  if (method !== 'GET' && method !== 'HEAD' && origin === undefined)
    return { status: 403, problem: 'a request that writes must say where it comes from' };
  const site = headers['sec-fetch-site'];
  const opened = headers['sec-fetch-mode'] === 'navigate' && headers['sec-fetch-dest'] === 'document';
  const openable = opened && secret === undefined && method === 'GET';
  if (site !== undefined && site !== 'same-origin' && site !== 'none' && !openable)
    return { status: 403, problem: 'the request comes from another site' };
  if (secret !== undefined && !sameSecret(token, secret))
    return { status: 401, problem: 'the page was opened before this start; load it again' };
  return undefined;
}

function sameSecret(given: string | undefined, secret: string): boolean {
  const a = Buffer.from(given ?? '');
  const b = Buffer.from(secret);
  return a.length === b.length && timingSafeEqual(a, b);
}

/** Sent with every answer. */
export const SAFE_HEADERS = new Headers({
  'cache-control': 'no-store',
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'content-security-policy': [
    "default-src 'self'",
    "img-src 'self' data: blob:",
    "style-src 'self' 'unsafe-inline'",
    "worker-src 'self' blob:",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
    "object-src 'none'",
  ].join('; '),
});
